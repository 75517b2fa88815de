# Shared by the scripts of this folder (sourced, not run): where the repository is, which Debian
# packages are needed for what, and configuring a build folder.
# shellcheck shell=bash disable=SC2034

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build_packages=(g++ cmake ninja-build libcli11-dev libspdlog-dev zlib1g-dev)
test_packages=(catch2 gzip)
clang_packages=(clang libclang-rt-14-dev)
jobs=${JOBS:-$(nproc)}

install_packages() {
  "$root/scripts/install_packages" "$@"
}

# configure FOLDER OPTION...: a build folder under the root.
configure() {
  local folder=$1
  shift
  cmake -S "$root" -B "$root/$folder" -G Ninja "$@" >/dev/null
}

# build FOLDER TARGET...: without a target, everything.
build() {
  local folder=$1
  shift
  cmake --build "$root/$folder" --parallel "$jobs" ${1:+--target "$@"}
}

# The one clang build: sanitizers, assertions, what libFuzzer needs; and no instructions but those
# that every processor has, so that the code written for the others is tested here.
configure_sanitized() {
  configure build-sanitized -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCMAKE_CXX_FLAGS_RELWITHDEBINFO="-O1 -gline-tables-only" \
    -DKAIROS_NATIVE=OFF -DKAIROS_SANITIZE=address,undefined -DKAIROS_FUZZ=ON -DKAIROS_TESTS=ON -DKAIROS_WERROR=ON \
    -DKAIROS_PRECOMPILED=ON
}

# tell_failures LOG: the end of what `ctest --verbose` wrote, and last each check that failed.
tell_failures() {
  grep -vE 'All tests passed|^$' "$1" | tail -n 150
  grep -nE -B 8 -A 16 '^[0-9]+: .*FAILED:|(ERROR|SUMMARY): [A-Za-z]*Sanitizer|runtime error:' "$1" |
    tail -n 60 || true
}
