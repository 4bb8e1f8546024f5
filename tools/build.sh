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

# In web/: the packages that its lock names, unless they are there.
install_page_packages() {
  cmp -s package-lock.json node_modules/.installed && return 0
  npm ci --ignore-scripts --no-audit --no-fund && cp package-lock.json node_modules/.installed
}

# Builds the page of the desk into web/dist, when one of its sources is newer than it. Without
# Node.js or its packages, an earlier page or none will do: the program says so itself.
build_page() {
  local web=$root/web log=$build/page.log
  [ -f "$web/package-lock.json" ] || return 0
  if [ -f "$web/dist/index.html" ] && [ -z "$(find "$web" -name node_modules -prune -o \
    -path "$web/dist" -prune -o -type f -newer "$web/dist/index.html" -print -quit)" ]; then
    return 0
  fi
  if ! command -v node > /dev/null || ! command -v npm > /dev/null; then
    need_packages nodejs npm || return 1
  fi
  echo "run: building the page of the desk" >&2
  mkdir -p "$build"
  (cd "$web" && install_page_packages && npm run build) > "$log" 2>&1 < /dev/null && return 0
  tail -n 20 "$log" >&2
  echo "run: the page could not be built; all that was said is in $log" >&2
  [ "${QUOIN_PACKAGES:-}" = as-is ]
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
