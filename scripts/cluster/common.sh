# Shared by the scripts of this folder (sourced): PARTS OUT GAMES... [-- OPTION...] into variables.
# The folders must be the same on all machines (a shared file system); jobs run where this was called.
# Set KAIROS where the program lies elsewhere than in build/.
# shellcheck shell=bash disable=SC2034

# shellcheck source=scripts/common.sh
source "$(dirname "${BASH_SOURCE[0]}")/../common.sh"
kairos=${KAIROS:-$root/build/kairos}

read_arguments() {
  [ $# -ge 3 ] && [[ $1 =~ ^[1-9][0-9]*$ ]] || { grep '^# usage' "$0" >&2; exit 2; }
  parts=$1
  out=$(realpath -m "$2")
  shift 2
  games=()
  while [ $# -gt 0 ] && [ "$1" != -- ]; do
    games+=("$1") # as given: reports name the files so
    shift
  done
  [ "${1:-}" = -- ] && shift
  options=("$@")
  mkdir -p "$out"
}

# scan_part PART THREADS: the command of one part as one line for a shell; both may be shell
# variables of the place where it will run.
scan_part() {
  printf '%q scan' "$kairos"
  printf ' %q' "${games[@]}"
  printf ' -o %q/part-%s --part %s/%s --threads %s --quiet' "$out" "$1" "$1" "$parts" "$2"
  [ ${#options[@]} -eq 0 ] || printf ' %q' "${options[@]}"
}

join_parts() {
  local folders=()
  for ((i = 1; i <= parts; ++i)); do folders+=("$out/part-$i"); done
  "$kairos" join "${folders[@]}" -o "$out"
}
