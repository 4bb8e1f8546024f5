# shellcheck shell=bash disable=SC2034,SC2086,SC2154
# Everything that ./run test checks, counted. Sourced by ./run, after tools/build.sh.

passed=0
failed=0
broken=()

note_failure() {
  failed=$((failed + $1))
  broken+=("$2")
}

# One check: one NAME COMMAND... passes when the command ends with status 0. Shows its last line,
# or all of it when it fails.
one() {
  local name=$1 log started=$SECONDS
  log=$build/check-${1//[^a-z0-9]/-}.log
  shift
  if "$@" > "$log" 2>&1 < /dev/null; then
    passed=$((passed + 1))
    echo "passed: $name ($((SECONDS - started)) s): $(tail -n 1 "$log")"
  else
    note_failure 1 "$name"
    tail -n 60 "$log"
    echo "FAILED: $name ($((SECONDS - started)) s)"
  fi
}

# The tests of build/PRESET by ctest, each counted on its own; skipped ones are named, not counted.
count_tests() {
  local preset=$1 log=$build/tests-$1.log started=$SECONDS
  ctest --test-dir "$build/$preset" -j "$(nproc)" -V --no-tests=error --timeout 600 \
    > "$log" 2>&1 < /dev/null
  local status=$? counted totals
  if ! counted=$("$root/tools/count-tests" "$log"); then
    tail -n 40 "$log"
    note_failure 1 "tests in build/$preset (ctest did not get through)"
    return
  fi
  read -ra totals <<< "$(tail -n 1 <<< "$counted")"
  head -n -1 <<< "$counted"
  if [ "$status" != 0 ] && [ "${totals[1]}" = 0 ]; then totals[1]=1; fi
  passed=$((passed + totals[0]))
  [ "${totals[1]}" = 0 ] || note_failure "${totals[1]}" "tests in build/$preset"
  echo "tests in build/$preset ($((SECONDS - started)) s): ${totals[0]} passed," \
    "${totals[1]} failed, ${totals[2]} skipped"
}

# Builds a preset with warnings as errors and runs its tests.
build_and_test() {
  local preset=$1 started=$SECONDS
  shift
  if configure "$preset" "$@" && compile "$preset"; then
    passed=$((passed + 1))
    echo "passed: build/$preset builds without a warning ($((SECONDS - started)) s)"
    count_tests "$preset"
  else
    note_failure 1 "build/$preset does not build"
  fi
}

# The program as makers run it.
build_for_makers() {
  configure release -DQUOIN_TESTS=OFF -DQUOIN_OUTSIDE=ON -DQUOIN_TESTS_TOGETHER=ON &&
    compile release quoin
}

# The desk's page in a browser, on the program just built, a file of tests at a time. A browser on
# a busy machine stumbles now and then: a file that fails is gone through once more, and both are
# told.
test_page() {
  local web=$root/web part status=0
  [ -f "$web/dist/index.html" ] || { echo "the page of the desk was not built"; return 1; }
  (cd "$web" && npm run check) || return 1
  for part in "$web"/test/*.test.ts; do
    part=${part##*/}
    tour_page "$web" "$part" && continue
    echo "once more: $part"
    tour_page "$web" "$part" || status=1
  done
  return $status
}

# tour_page FOLDER WORD...: the tests of the page whose files hold a word.
tour_page() {
  (cd "$1" && node test/run.mjs --real "$build/release/quoin" --looks "$build/page" "${@:2}")
}

# Compiles the tests while the browser leaves the cores half idle, and gives way to it.
begin_tests() {
  (
    renice -n 19 "$BASHPID" > /dev/null
    compile release
    configure sanitize -DQUOIN_TESTS=ON && compile sanitize
  ) 2> /dev/null &
  meanwhile=$!
  trap 'kill "$meanwhile" 2> /dev/null' EXIT
}

# What is checked against the world outside, of the code that makers run.
test_outside() {
  wait "$meanwhile"  # what it could not build is said below
  trap - EXIT
  build_and_test release
}

# All other tests. Leaks in third-party font code are named in tests/leaks.supp; ours are faults.
test_sanitized() {
  local -x ASAN_OPTIONS=detect_stack_use_after_return=1
  local -x LSAN_OPTIONS=suppressions=$root/tests/leaks.supp:print_suppressions=0
  local -x UBSAN_OPTIONS=print_stacktrace=1
  build_and_test sanitize -DQUOIN_TESTS=ON
}

check_pages() {
  local tool
  for tool in check-floors check-headers check-sizes; do
    one "$tool finds what it looks for" "$root/tools/$tool" --self-test
    one "$tool" "$root/tools/$tool"
  done
  one "house format" "$root/tools/format" --check
  one "count-tests counts what fails" "$root/tools/count-tests" --self-test
}

test_all() {
  mkdir -p "$build"
  check_pages
  one "the page of the desk builds" build_page
  one "the program builds without a warning" build_for_makers
  begin_tests
  one "check-guide finds what it looks for" "$root/tools/check-guide" --self-test
  one "commands of the guide" env QUOIN_PROGRAM="$build/release/quoin" "$root/tools/check-guide"
  one "the desk's page, as a maker uses it" test_page
  test_outside
  test_sanitized
  echo
  [ ${#broken[@]} -gt 0 ] && printf 'FAILED: %s\n' "${broken[@]}"
  echo "In $((SECONDS / 60)) min $((SECONDS % 60)) s:"
  echo "$passed passed, $failed failed"
  [ $failed = 0 ]
}
