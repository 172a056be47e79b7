#!/usr/bin/env bash
# Breaks each rule of rules.sh in a small tree of its own and expects it to be told.
#
#   rules_can_fail.sh COMPILER EIGEN_INCLUDE_DIR
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
compiler=$1 eigen=$2
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
failures=0

fresh_tree()
{
  rm -rf "${tree:?}"/*
  mkdir "$tree"/{mesh,solver,post,cases}
  printf '#include <vector>\n#include "mesh/b.hpp"\n' > "$tree/solver/a.hpp"
  printf '#include "solver/a.hpp"\n#include <gmsh.h>\n' > "$tree/post/a.cpp"
  printf 'struct B {};\n' > "$tree/mesh/b.hpp"
  printf 'project(ferrule VERSION 0.1.0 LANGUAGES CXX\n' > "$tree/CMakeLists.txt"
  printf 'version: 0.1.0\n' > "$tree/CITATION.cff"
  printf '## 0.1.0 (first)\n' > "$tree/CHANGELOG.md"
}

told() { bash "$here/rules.sh" "$1" "$tree" "${2:-/bin/true}" "$compiler" "$eigen" 2>&1; }

passes()
{
  told "$@" > "$tree/said" || { echo "$1 fails on a sound tree: $(cat "$tree/said")"; failures=1; }
}

# fails RULE TEXT [PROGRAM]: the rule fails and its message holds TEXT.
fails()
{
  if told "$1" "${3:-/bin/true}" > "$tree/said" || ! grep -qF -- "$2" "$tree/said"; then
    echo "$1 does not tell: $2; it says: $(cat "$tree/said")"
    failures=1
  fi
  fresh_tree
}

fresh_tree
for rule in includes borders sizes headers startup versions; do
  passes "$rule"
done

echo '#include "post/c.hpp"' >> "$tree/mesh/b.hpp"
fails includes 'mesh/b.hpp: mesh must not include #include "post/c.hpp'
echo '#include <ferrule/cases/c.hpp>' >> "$tree/post/a.cpp"
fails includes 'post/a.cpp: post must not include #include <ferrule/cases/c.hpp'
echo '#include "../mesh/b.hpp"' >> "$tree/solver/a.hpp"
fails includes 'solver/a.hpp: names our headers from the root'

for header in gmsh.h toml++/toml.h CLI/CLI.hpp nlohmann/json.hpp vtkNew.h cairo.h units.hpp udunits2.h fmt/format.h; do
  echo "#include <$header>" >> "$tree/solver/a.hpp"
  fails borders "solver/a.hpp: a header of ours must not include #include <$header>"
done
echo 'void f(const toml::table&);' >> "$tree/solver/a.hpp"
fails borders 'solver/a.hpp: a header of ours must not speak of toml::'

printf '// long%.0s\n' $(seq 121) > "$tree/mesh/b.hpp"
fails sizes 'mesh/b.hpp: 121 lines, more than 120'
printf '// long%.0s\n' $(seq 401) > "$tree/post/a.cpp"
fails sizes 'post/a.cpp: 401 lines, more than 400'

echo 'std::string name();' >> "$tree/mesh/b.hpp"
fails headers 'mesh/b.hpp:2'
echo 'std::string name();' >> "$tree/mesh/b.hpp"
printf '#include <string>\n#include "mesh/b.hpp"\n' > "$tree/mesh/b.cpp" # hides it from the build
fails headers 'mesh/b.hpp:2'

sed -i 's/0.1.0/0.2.0/' "$tree/CMakeLists.txt"
fails versions 'CHANGELOG.md: does not say version 0.2.0'

# A program that needs a library of that name at its start.
echo 'int in_library() { return 0; }' | "$compiler" -shared -fPIC -x c++ - -o "$tree/libcairo.so.2" -Wl,-soname,libcairo.so.2
echo 'int in_library(); int main() { return in_library(); }' |
  "$compiler" -x c++ - -x none "$tree/libcairo.so.2" -o "$tree/drawing_program"
fails startup 'loads [libcairo.so.2] at its start' "$tree/drawing_program"

rm -rf "${tree:?}"/mesh/* "${tree:?}"/solver/* "${tree:?}"/post/*
fails sizes 'found nothing to look at'
exit "$failures"
