# shellcheck shell=bash disable=SC2034,SC2154
# Configuring and building. Sourced by ./run; `$root` is the checkout, `$build` the build folder.

# How many compilers at once: one a core, and 1.5 GB of memory for each.
parallel_jobs() {
  local cores memory
  cores=$(nproc)
  memory=$(awk '/^MemAvailable/ { print int($2 / 1500000) }' /proc/meminfo)
  [ "${memory:-$cores}" -lt 1 ] && memory=1
  echo $((memory < cores ? memory : cores))
}

# Runs a command with its words in $build/NAME.log; on failure shows the end of them.
quietly() {
  local log=$build/$1.log
  shift
  mkdir -p "$build"
  "$@" > "$log" 2>&1 < /dev/null && return 0
  if grep -qE 'error|Error|undefined reference' "$log"; then
    grep -A 12 -E 'error|Error|undefined reference' "$log" | head -n 80 >&2
  else
    tail -n 40 "$log" >&2
  fi
  echo "run: that failed; all it said is in $log" >&2
  return 1
}

# Configures build/PRESET when it is new or one of the options (-DNAME=VALUE) is not yet set.
configure() {
  local preset=$1 option cache=$build/$1/CMakeCache.txt wanted=no
  shift
  [ -f "$build/$preset/build.ninja" ] || wanted=yes
  for option in "$@"; do
    option=${option#-D}
    grep -q "^${option%%=*}:[A-Z]*=${option#*=}\$" "$cache" 2> /dev/null || wanted=yes
  done
  [ $wanted = no ] && return 0
  if command -v ccache > /dev/null; then set -- "$@" -DCMAKE_CXX_COMPILER_LAUNCHER=ccache; fi
  (cd "$root" && quietly "configure-$preset" cmake --preset "$preset" -B "$build/$preset" "$@")
}

# Builds targets of build/PRESET: compile PRESET [TARGET...]
compile() {
  local preset=$1
  shift
  quietly "build-$preset" ninja -C "$build/$preset" -j "$(parallel_jobs)" -k 20 "$@"
}

# Brings the program up to date and names it in `program`. QUOIN_PROGRAM, when set, is a program
# built elsewhere, and is taken as it is.
build_program() {
  program=${QUOIN_PROGRAM:-$build/release/quoin}
  [ -n "${QUOIN_PROGRAM:-}" ] && return 0
  need_packages "${packages_to_build[@]}" || return 1
  if [ ! -x "$program" ]; then
    echo "run: building Quoin, which takes a few minutes the first time" >&2
    [ -f "$build/release/build.ninja" ] || configure release -DQUOIN_TESTS=OFF || return 1
  fi
  compile release quoin
}
