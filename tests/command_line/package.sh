#!/usr/bin/env bash
# package.sh RULE BUILD_DIR: man page, completions and the Debian package, as made in the build
# directory. Exits 77, "skipped", where the tools for it are missing.
set -u
rule=$1 build=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1

fail() { echo "FAILED: $*"; exit 1; }

# Man page and completions name every command and option the program has.
help()
{
  local ferrule=$build/cases/ferrule commands command option
  commands=$("$ferrule" --help | grep -oE '^  ferrule [a-z]+' | awk '{ print $2 }' | sort -u)
  [ "$(wc -w <<<"$commands")" -ge 8 ] || fail "commands are not found in the help"
  sed 's/\\-/-/g' "$build/help/ferrule.1" >page
  complete_with() # complete_with WORD...: what bash offers for the last word
  {
    bash -c 'source "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _ferrule
      printf "%s\n" "${COMPREPLY[@]}"' - "$build/help/ferrule.bash" "$@"
  }
  for command in $commands; do
    grep -qx ".SH \"FERRULE ${command^^}\"" page || fail "no $command in the man page"
    complete_with ferrule "${command:0:2}" | grep -qx "$command" || fail "bash does not know $command"
    grep -q "^$command) compadd" "$build/help/_ferrule" || fail "zsh does not know $command"
    for option in $("$ferrule" "$command" --help | grep -oE '^  --[a-z-]+'); do
      grep -qe "^  $option" page || fail "no $option of $command in the man page"
      complete_with ferrule "$command" "$option" | grep -qx -e "$option" ||
        fail "bash does not know $command $option"
      grep -q -e "^$command) compadd .*$option " "$build/help/_ferrule" ||
        fail "zsh does not know $command $option"
    done
  done
  if command -v groff >/dev/null; then
    groff -man -ww -Tutf8 "$build/help/ferrule.1" 2>complaints >/dev/null
    [ ! -s complaints ] || { cat complaints; fail "groff complains of the man page"; }
  fi
}

# The package holds what it should, names what it needs, and runs from where it is put, its own
# drawing module with it.
debian()
{
  command -v dpkg-shlibdeps >/dev/null || { echo "no dpkg-shlibdeps here"; exit 77; }
  cpack --config "$build/CPackConfig.cmake" -B "$work" >log 2>&1 || { cat log; fail "cpack"; }
  local package
  package=$(echo ferrule_*.deb)
  for needed in libcairo2 libvtk9.1 libgmsh fonts-dejavu-core libc6; do
    dpkg-deb -f "$package" Depends | grep -q "$needed" || fail "does not depend on $needed"
  done
  dpkg-deb -x "$package" root
  for file in share/man/man1/ferrule.1 share/bash-completion/completions/ferrule \
    share/zsh/vendor-completions/_ferrule share/ferrule/case.schema.json \
    lib/ferrule/ferrule-drawing.so; do
    [ -s "root/usr/$file" ] || fail "no $file"
  done
  root/usr/bin/ferrule new rod >rod.toml || fail "does not run"
  root/usr/bin/ferrule report rod.toml --out page >/dev/null || fail "makes no page"
  rm root/usr/lib/ferrule/ferrule-drawing.so
  if root/usr/bin/ferrule report rod.toml --out page 2>err >/dev/null; then
    fail "draws with a module that is not the package's"
  fi
  grep -q "the drawing module is missing" err || fail "does not say that the module is missing"
}

"$rule"
echo "ok: $rule"
