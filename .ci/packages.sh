# Sourced: which Debian 12 packages each job needs, and `need` to install those that are missing.

build_packages=(
  g++ cmake ninja-build pkg-config
  libeigen3-dev libgmsh-dev                      # solver/, mesh/
  libvtk9-dev libcairo2-dev fonts-dejavu-core    # the drawing module
  libcli11-dev libtomlplusplus-dev libudunits2-dev libfmt-dev nlohmann-json3-dev # cases/, post/
  libboost-math-dev libcsv-dev libnlopt-cxx-dev  # post/, cases/
)
test_packages=("${build_packages[@]}" catch2
  python3-jsonschema) # cases against their schema; without it those tests are skipped
check_packages=("${test_packages[@]}" clang-format clang-tidy-16
  chromium chromium-driver poppler-utils) # open and print pages to send; without them those tests are skipped

# need PACKAGE…: installs what is missing, as root or through sudo; asks nothing else of the machine.
need()
{
  command -v apt-get > /dev/null || {
    echo "not a Debian machine; these have to be there: $*" >&2
    return 0
  }
  local package missing=()
  for package in "$@"; do
    dpkg-query -W -f '${db:Status-Status}\n' "$package" 2> /dev/null | grep -qx installed ||
      missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  echo "installing: ${missing[*]}"
  local as_root=()
  [ "$(id -u)" -eq 0 ] || as_root=(sudo)
  "${as_root[@]}" apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -qq --no-install-recommends "${missing[@]}" > /dev/null
}
