#!/usr/bin/env bash
# from_help.sh FERRULE FOLDER: man page and shell completions, made of what `ferrule --help` says, so
# that they name the commands and options there are.
set -euo pipefail
ferrule=$1 folder=$2
mkdir -p "$folder"
version=$("$ferrule" --version)

# Commands in the order of the overview; options of each as its help lists them.
commands=$("$ferrule" --help | grep -oE '^  ferrule [a-z]+' | awk '!seen[$2]++ { print $2 }')
options_of() { "$ferrule" "$1" --help | grep -oE '^  --[a-z][a-z-]*' | tr -d ' ' | sort -u | tr '\n' ' '; }

# Help text as roff, lines kept as they are: "\" and leading "." and "'" escaped.
roff() { sed -e 's/\\/\\e/g' -e "s/^\([.']\)/\\\\\&\1/" -e 's/-/\\-/g'; }
{
  printf '.TH FERRULE 1 "" "%s" "User Commands"\n.SH NAME\n' "$version"
  printf 'ferrule \\- magnetic fields of bodies of revolution, with guaranteed bounds\n'
  printf '.SH DESCRIPTION\n.nf\n'
  "$ferrule" --help | roff
  for command in $commands; do
    printf '.fi\n.SH "FERRULE %s"\n.nf\n' "${command^^}"
    "$ferrule" "$command" --help | roff
  done
  printf '.fi\n'
} >"$folder/ferrule.1"

{
  printf '# bash completion of %s, made from its help.\n_ferrule()\n{\n' "$version"
  printf '  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n'
  printf '  if [ "$COMP_CWORD" = 1 ]; then\n    COMPREPLY=($(compgen -W "%s --help --version" -- "$word"))\n' \
    "$(echo $commands)"
  printf '    return\n  fi\n  case $before in\n'
  printf '  --files) COMPREPLY=($(compgen -W "none all" -- "$word")); return ;;\n'
  printf '  --out) COMPREPLY=($(compgen -d -- "$word")); return ;;\n  esac\n'
  printf '  if [[ $word != -* ]]; then\n    COMPREPLY=($(compgen -f -X "!*.toml" -- "$word") $(compgen -d -- "$word"))\n'
  printf '    return\n  fi\n  case ${COMP_WORDS[1]} in\n'
  for command in $commands; do
    printf '  %s) COMPREPLY=($(compgen -W "%s" -- "$word")) ;;\n' "$command" "$(options_of "$command")"
  done
  printf '  esac\n}\ncomplete -o filenames -F _ferrule ferrule\n'
} >"$folder/ferrule.bash"

{
  printf '#compdef ferrule\n# zsh completion of %s, made from its help.\n' "$version"
  printf 'if (( CURRENT == 2 )); then\n  compadd -- %s --help --version\n  return\nfi\n' "$(echo $commands)"
  printf 'if [[ $words[CURRENT] != -* ]]; then\n  _files\n  return\nfi\ncase $words[2] in\n'
  for command in $commands; do
    printf '%s) compadd -- %s ;;\n' "$command" "$(options_of "$command")"
  done
  printf 'esac\n'
} >"$folder/_ferrule"
