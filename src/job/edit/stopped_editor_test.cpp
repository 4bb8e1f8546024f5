// The editor killed between any two system calls, and on a disk that takes no more.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/ptrace.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "job/edit/edit_folder.h"
#include "job/edit/editor.h"
#include "job/edit/journal.h"

namespace quoin::job {
namespace {

std::unique_ptr<Editor> opened(const EditFolder& folder) {
  auto made = Editor::open(folder.path().string());
  if (!made) throw std::logic_error(made.why().front().message);
  return std::move(made->editor);
}

EditAnswer apply_in(const EditFolder& folder, Edit edit) {
  const auto editor = opened(folder);
  return editor->apply(editor->look(), std::move(edit));
}

/// Runs `work` in a process of its own that stops before each system call once it has raised
/// SIGSTOP itself, and kills it before call number `calls`. False when it came to its end.
template <typename Work>
bool killed_after(int calls, const Work& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    ::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr);
    work();
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);  // the marker
  for (int stops = 0; stops < 2 * calls && WIFSTOPPED(status); ++stops) {
    ::ptrace(PTRACE_SYSCALL, child, nullptr, nullptr);
    ::waitpid(child, &status, 0);
  }
  if (!WIFSTOPPED(status)) return false;
  ::kill(child, SIGKILL);
  ::waitpid(child, &status, 0);
  return true;
}

const std::vector<game::Change> both{set_title("Tide"), set_name(1, "b", "Bear")};

TEST(StoppedEditor, leaves_all_of_an_edit_or_nothing_wherever_it_is_killed) {
  int kept = 0, lost = 0;
  for (int calls = 0;; ++calls) {
    ASSERT_LT(calls, 2000);
    const EditFolder folder("killed");
    const auto before = folder.all();
    const bool killed = killed_after(calls, [&] {
      const auto editor = opened(folder);
      const View seen = editor->look();
      ::raise(SIGSTOP);
      (void)editor->apply(seen, edit_of("both", both));
    });
    const auto editor = opened(folder);
    const auto after = folder.all();
    if (after == before) {
      ++lost;
      EXPECT_EQ(editor->undo_label(), std::nullopt) << calls;
      continue;
    }
    ++kept;
    EXPECT_EQ(after.size(), before.size()) << calls;
    EXPECT_NE(after.at("game.toml").find("\"Tide\""), std::string::npos) << calls;
    EXPECT_EQ(after.at("cards.csv"), "id,name\na,Adder\nb,Bear\n") << calls;
    EXPECT_EQ(words_of(editor->undo()), "done: both") << calls;
    EXPECT_EQ(folder.all(), before) << calls;
    if (!killed) break;
  }
  EXPECT_GT(kept, 10);
  EXPECT_GT(lost, 3);
}

TEST(StoppedEditor, takes_an_edit_back_whole_wherever_it_is_killed) {
  for (int calls = 0;; calls += 3) {
    ASSERT_LT(calls, 2000);
    const EditFolder folder("undoing");
    const auto before = folder.all();
    ASSERT_EQ(words_of(apply_in(folder, edit_of("both", both))), "done: both");
    const auto after = folder.all();
    const bool killed = killed_after(calls, [&] {
      const auto editor = opened(folder);
      ::raise(SIGSTOP);
      (void)editor->undo();
    });
    const auto editor = opened(folder);
    const auto now = folder.all();
    EXPECT_TRUE(now == before || now == after) << calls;
    EXPECT_EQ(words_of(now == before ? editor->redo() : editor->undo()), "done: both") << calls;
    EXPECT_EQ(folder.all(), now == before ? after : before) << calls;
    if (!killed) break;
  }
}

/// No file may become larger, for as long as this lives.
class FileLimit {
 public:
  explicit FileLimit(rlim_t most) {
    ::getrlimit(RLIMIT_FSIZE, &old_);
    earlier_ = ::signal(SIGXFSZ, SIG_IGN);
    rlimit fresh = old_;
    fresh.rlim_cur = most;
    ::setrlimit(RLIMIT_FSIZE, &fresh);
  }
  ~FileLimit() {
    ::setrlimit(RLIMIT_FSIZE, &old_);
    ::signal(SIGXFSZ, earlier_);
  }
  FileLimit(const FileLimit&) = delete;
  FileLimit& operator=(const FileLimit&) = delete;

 private:
  rlimit old_{};
  void (*earlier_)(int) = nullptr;
};

TEST(FullDisk, keeps_an_edit_that_cannot_be_written_and_shows_it) {
  const EditFolder folder("full");
  std::string list = "id,name\n";
  for (int i = 0; i < 4000; ++i) list += "card-" + std::to_string(i) + ",some words of it\n";
  folder.write("cards.csv", list);
  const auto before = folder.all();
  auto editor = opened(folder);
  {
    const FileLimit limit(50'000);
    EXPECT_EQ(
        words_of(editor->apply(editor->look(),
                               edit_of("both", {set_title("Tide"), set_name(7, "card-7", "x")}))),
        "waiting: both; cards.csv: cannot write cards.csv: File too large "
        "[edit.not-written]");
    EXPECT_EQ(folder.all(), before);
    const View view = editor->look();
    EXPECT_NE(view.world->read("cards.csv", 1'000'000).bytes->find("card-7,x\n"),
              std::string::npos);
    EXPECT_EQ(words_of(editor->apply(view, edit_of("third", {set_at(4)}))),
              "waiting: third; cards.csv: cannot write cards.csv: File too large "
              "[edit.not-written]");
    EXPECT_EQ(folder.all(), before);
  }
  EXPECT_EQ(words_of(editor->retry()), "done: third");
  EXPECT_NE(folder.read("cards.csv").find("card-7,x\n"), std::string::npos);
  EXPECT_EQ(words_of(editor->undo()), "done: third");
  EXPECT_EQ(words_of(editor->undo()), "done: both");
  EXPECT_EQ(folder.all(), before);
}

TEST(FullDisk, changes_no_file_when_the_journal_cannot_be_written) {
  const EditFolder folder("nojournal");
  const auto before = folder.all();
  const auto editor = opened(folder);
  {
    const FileLimit limit(300);
    EXPECT_EQ(words_of(editor->apply(editor->look(), edit_of("title", {set_title("Tide")}))),
              "waiting: title; : cannot write .quoin/journal: File too large "
              "[edit.journal-not-written]");
    EXPECT_EQ(folder.all(), before);
    EXPECT_NE(editor->look().world->read("game.toml", 1000).bytes->find("\"Tide\""),
              std::string::npos);
  }
  EXPECT_EQ(words_of(editor->retry()), "done: title");
  EXPECT_EQ(words_of(editor->undo()), "done: title");
  EXPECT_EQ(folder.all(), before);
}

TEST(Journal, forgets_a_last_line_that_was_not_finished) {
  const EditFolder folder("torn");
  EXPECT_EQ(words_of(apply_in(folder, edit_of("title", {set_title("Tide")}))), "done: title");
  const std::string whole = folder.read(".quoin/journal");
  folder.write(".quoin/journal", whole + "{\"begin\":0,\"step\":{\"la");
  EXPECT_EQ(words_of(opened(folder)->undo()), "done: title");
}

TEST(Journal, that_cannot_be_read_is_put_aside) {
  const EditFolder folder("damaged");
  std::filesystem::create_directory(folder.path(".quoin"));
  for (const std::string bad : {"nonsense\n", "{\"journal\":1}\n{\"begin\":0}\n",
                                "{\"journal\":1}\n{\"pile\":9,\"step\":{}}\n", "[[[[\n",
                                "{\"journal\":1}\n{\"wait\":1,\"claims\":7}\n"}) {
    folder.write(".quoin/journal", bad);
    const auto made = Editor::open(folder.path().string());
    ASSERT_TRUE(made.ok());
    ASSERT_EQ(made->found.size(), 1U) << bad;
    EXPECT_EQ(made->found[0].id, Id::edit_journal_damaged);
    EXPECT_EQ(folder.read(".quoin/journal-damaged"), bad);
  }
}

TEST(Journal, leaves_alone_a_file_that_was_changed_after_an_edit_was_cut_short) {
  const EditFolder folder("foreign");
  EXPECT_EQ(words_of(apply_in(folder, edit_of("title", {set_title("Tide")}))), "done: title");
  std::string journal = folder.read(".quoin/journal");
  journal.resize(journal.rfind("{\"finish\""));
  folder.write(".quoin/journal", journal);
  folder.write("game.toml", "[game]\ntitle = \"Other\"\n");
  const auto made = Editor::open(folder.path().string());
  ASSERT_TRUE(made.ok());
  ASSERT_EQ(made->found.size(), 1U);
  EXPECT_EQ(made->found[0].message, "a change was cut short, and game.toml is not as it was then");
  EXPECT_EQ(folder.read("game.toml"), "[game]\ntitle = \"Other\"\n");
}

TEST(Journal, drops_the_oldest_steps_when_it_grows_too_long) {
  const EditFolder folder("long");
  std::filesystem::create_directory(folder.path(".quoin"));
  const auto made = Journal::open(folder.path(".quoin").string(), 4000);
  ASSERT_TRUE(made.ok());
  Journal& journal = *made->journal;
  for (int i = 0; i < 100; ++i) {
    const Step step{"step " + std::to_string(i), "", {}, {}, {}};
    ASSERT_TRUE(journal.begin(Move::make, step, {}).ok());
    journal.finish();
  }
  EXPECT_LT(folder.read(".quoin/journal").size(), 4300U);
  ASSERT_GT(journal.undo().size(), 10U);
  ASSERT_LT(journal.undo().size(), 80U);
  EXPECT_EQ(journal.undo().back().label, "step 99");
  for (const KeptStep& each : journal.undo()) {
    const auto step = journal.step(each);
    ASSERT_TRUE(step.has_value());
    EXPECT_EQ(step->label, each.label);
  }
  const auto again = Journal::open(folder.path(".quoin").string(), 4000);
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(again->journal->undo().size(), journal.undo().size());
}

}  // namespace
}  // namespace quoin::job
