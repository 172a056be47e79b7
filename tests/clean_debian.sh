#!/usr/bin/env bash
# clean_debian.sh BUILD_DIR: the Debian package installed by apt in an empty Debian 12 made for it, and run
# there: solve, compare, report, formulas. As root, with debootstrap; some minutes and 1.5 GB in TMPDIR.
#
# Never part of the default suite. Packages come from where this machine's own apt takes them.
set -euo pipefail
build=$(realpath "${1:?say which build directory}") source=$(realpath "$(dirname "$0")/..")
root=$(mktemp -d)
chmod 755 "$root"
tidy()
{
  umount "$root/proc" 2> /dev/null || true
  rm -rf --one-file-system "$root"
}
trap tidy EXIT

mirror=$(cat /etc/apt/sources.list /etc/apt/sources.list.d/debian* 2> /dev/null |
  sed -nE 's/^(URIs: |deb (\[[^]]*\] )?)(http[^ ]*).*/\3/p' | head -n 1) || true
debootstrap --variant=minbase bookworm "$root" ${mirror:+"$mirror"} > "$root.log" 2>&1 || { tail -n 5 "$root.log"; exit 1; }
rm "$root.log"
cp /etc/apt/apt.conf.d/*proxy* "$root/etc/apt/apt.conf.d/" 2> /dev/null || true
cp /etc/resolv.conf "$root/etc/"
mount -t proc none "$root/proc"
(cd "$root" && cpack --config "$build/CPackConfig.cmake" -B "$root/packed" > packed.log && mv packed/*.deb . && rm -r packed)
cp "$source"/cases/{sintered-rod,powder-tube,canned-coil}.toml "$root/root/"

within() { chroot "$root" env -i HOME=/root PATH=/usr/bin:/bin:/usr/sbin:/sbin LC_ALL=C DEBIAN_FRONTEND=noninteractive bash -euc "cd /root; $1"; }
within 'printf "path-exclude=/usr/share/doc/*\n" > /etc/dpkg/dpkg.cfg.d/lean
  for tool in gcc python3 cmake; do if command -v $tool; then exit 1; fi; done
  apt-get -qq update; apt-get -qq install -y --no-install-recommends /ferrule_*.deb > /apt.log 2>&1 || { tail /apt.log; exit 1; }'
echo "installed: $(within 'dpkg-query -W -f "\${Package} \${Version}, \${Installed-Size} kB\n" ferrule; dpkg-query -W | wc -l' | paste -sd ' ') packages in all"
within 'ferrule --version
  ferrule new rod > rod.toml
  ferrule solve rod.toml --out solved --revolve > solved.txt
  for name in field.vtu picture.svg picture.png result.json revolved.vtp revolved.png; do [ -s solved/$name ]; done
  ferrule compare sintered-rod.toml powder-tube.toml --out compared | grep "turns to match"
  ferrule report canned-coil.toml --accuracy 1e-2 --out page
  [ $(wc -c < page/report.html) -gt 100000 ]
  ferrule formulas rod.toml | grep -q Source
  [ -s /usr/share/man/man1/ferrule.1.gz ] || [ -s /usr/share/man/man1/ferrule.1 ]
  [ -s /usr/share/ferrule/case.schema.json ]
  [ -s /usr/share/bash-completion/completions/ferrule ]
  grep -A3 "^Inductance" solved.txt
  apt-get -qq -o Dpkg::Use-Pty=0 remove -y ferrule > /dev/null
  [ ! -e /usr/bin/ferrule ] && [ ! -e /usr/share/ferrule ]'
echo "ok: clean Debian"
