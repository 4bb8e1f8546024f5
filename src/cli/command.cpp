#include "cli/command.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/game.h"

namespace quoin::cli {
namespace {

const Option json_option{"--json", "",
                         "print the findings as JSON on standard output, for other programs"};
const Option only_option{"--only", "ID,ID", "only these cards: to print spoilt ones again"};
const Option decks_option{"--decks", "N", "so many copies of the whole deck (1 to 1000)"};

std::vector<Command> table() {
  return {
      {"new",
       "DIR [--pictures FOLDER] [--size NAME|WxH] [--title TEXT]",
       "make a game folder, from nothing or from finished card pictures",
       "Makes the folder DIR with everything a game needs. Alone it is a small game to start from, "
       "with comments that explain each part. With --pictures every picture in FOLDER becomes a "
       "card: one called `back` becomes the back, and `name x3.png` means three copies.",
       "quoin new reef\n"
       "quoin new reef --pictures drawings --size poker\n"
       "quoin new reef --pictures drawings --size 70x120",
       1,
       {{"--pictures", "FOLDER", "a folder with one finished picture for each card"},
        {"--size", "NAME|WxH", "a card size of `quoin sizes`, or width x height in mm"},
        {"--title", "TEXT", "the game's title (else the folder's name)"}},
       run_new},
      {"check",
       "[DIR] [options]",
       "say what would go wrong on paper, and write nothing",
       "Reads the game in DIR (or here), draws every card and looks at it as a printer, a blade "
       "and a player will. Each finding says where it is, what will be seen on the table and what "
       "to do. `quoin help NAME` tells more about one of them.",
       "quoin check\nquoin check reef --json",
       1,
       {only_option,
        decks_option,
        {"--costs", "", "say what 1, 5 and 20 decks take: paper, ink, money and time"},
        json_option},
       run_check},
      {"make",
       "[DIR] [options]",
       "make the pack: everything to print",
       "Checks the game in DIR (or here) and writes the pack: sheets for your printer, files for a "
       "print shop, pictures of the cards. With an error among the findings nothing is written and "
       "the earlier pack stays as it was. So it does when the work is stopped with Ctrl-C, when "
       "the "
       "disk is full or when the program is killed half way.",
       "quoin make\nquoin make reef --out reef-pack\nquoin make reef --only W-07,W-09\n"
       "quoin make reef --decks 5",
       1,
       {{"--out", "FOLDER", "where the pack goes (else DIR/pack, or DIR/reprint with --only)"},
        {"--parts", "LIST", "only some parts: home, shop, pictures, cutter, guide"},
        only_option,
        decks_option,
        json_option,
        {"--quiet", "", "say nothing but problems"}},
       run_make},
      {"share",
       "[DIR] [options]",
       "give the game to others: everything to print, for any printer",
       "Writes a folder, and a .zip beside it, with the game in DIR (or here) for somebody who has "
       "another printer, other paper and nobody to ask: on A4 and on Letter, in full colour and in "
       "low ink, with a page to read first, a guide, credits and a web page. Each picture's row in "
       "art/sources.csv says who made it and under which licence. Where nobody is named, or the "
       "licence does not let a file be given on, nothing is written until you replace it, leave "
       "out what shows it, or say that you asked. This is no legal advice: what counts is the text "
       "of each licence and the law where you are.",
       "quoin share\nquoin share reef --out reef-1.0\n"
       "quoin share reef --since reef/share/reef-1.0\n"
       "quoin share reef --without gull.svg,\"box art\" --i-asked tern.svg",
       1,
       {{"--out", "FOLDER", "where the share goes (else DIR/share/NAME-VERSION)"},
        {"--since", "FOLDER", "an earlier share: what changed is listed, and can be printed alone"},
        {"--without", "WHAT,WHAT",
         "leave out a card by its id, back, box, box art, mat, rules, or all that shows a file"},
        {"--i-asked", "FILE,FILE", "you asked whoever made these files, and may give them on"},
        {"--quiet", "", "say nothing but problems"}},
       run_share},
      {"desk",
       "[DIR] [options]",
       "work on the game in the browser",
       "Shows the game in DIR (or here) in the browser: its cards, its list and layouts, the "
       "sheets, the box and your printer, with all that would go wrong on paper. What changes in "
       "the folder is seen at once. In an empty folder, or one that does not exist yet, it begins "
       "a "
       "new game. The desk answers to this machine alone, and only to whoever has the address that "
       "it prints.",
       "quoin desk reef\nquoin desk reef --port 8000 --no-open",
       1,
       {{"--port", "N", "the port to answer on (else a free one)"},
        {"--no-open", "", "print the address, but open no browser"}},
       run_desk},
      {"printer",
       "[sheet|read|scans|show] [options]",
       "measure your printer, so that backs meet their fronts",
       "Alone it says what to do and lists the printers of this machine. `sheet` makes a measuring "
       "sheet to print. `read` takes what you read off it against the light: A=E when E lies "
       "behind "
       "A, 150=… and 200=… for the bars, 1=… to 8=… for the scales; a scale given again begins the "
       "next sheet. `scans` takes pictures of both sides instead, the front first. Both keep what "
       "they find under the name given with --as, for any game on this machine, or with --game in "
       "that game's folder. `show` prints what is known of one.",
       "quoin printer sheet -o sheet.pdf --paper Letter\n"
       "quoin printer read A=E 150=149.8 200=199.7 1=3 2=-1 3=2 4=0 5=3 6=1 7=2 8=\"0 or 1\"\n"
       "quoin printer scans front.png back.png --as \"Laser in the study\" --game reef",
       1000,
       {{"--out", "FILE", "where the sheet goes, -o for short (else measuring-sheet.pdf)"},
        {"--paper", "NAME|WxH", "the paper (else A4; scans know A4 and Letter by themselves)"},
        {"--flip", "EDGE", "about which edge sheets are turned: long-edge or short-edge"},
        {"--backs", "HOW", "who turns the sheets: printer or by-hand"},
        {"--sheets", "N", "so many numbered sheets in one file (1 to 20)"},
        {"--from", "FILE", "a file with readings, as they would be typed"},
        {"--as", "NAME", "what you call the printer (else My printer)"},
        {"--tray", "NAME", "the tray that was measured"},
        {"--stock", "NAME", "the paper that was measured"},
        {"--heaviest", "G/M2", "the heaviest stock that the printer takes"},
        {"--margin", "MM", "the edge of the paper that the printer cannot reach"},
        {"--pile", "HOW", "how printed fronts lie in the tray: face-down or face-up"},
        {"--game", "DIR", "keep it in this game's folder, or show one of it"}},
       run_printer},
      {"pictures",
       "[DIR] [options]",
       "list the pictures of a game: how sharp each prints, and where it is shown",
       "Lists every picture in `art/` of the game in DIR (or here) and whatever else its cards, "
       "backs, box, mat and rules show: its size in pixels, how large and at how many pixels an "
       "inch it prints where it is coarsest, and what shows it. Coarse ones come first, those that "
       "nothing shows last. With --sizes it also says how large each can be printed at 300, 220 "
       "and 150 pixels an inch. Nothing is changed.",
       "quoin pictures\nquoin pictures reef --sizes\nquoin pictures reef --json",
       1,
       {{"--sizes", "", "also how large each can be printed, and what kind of file it is"},
        json_option},
       run_pictures},
      {"trace",
       "PICTURE... [options] | --all [DIR] [options]",
       "redraw pictures of pixels as vectors",
       "Redraws pictures that are too coarse to print as SVG: plain areas and gradients with sharp "
       "borders, a layer for each colour, as few nodes as a person would draw. Each drawing is "
       "measured against its picture and judged: good, look at it, better kept as a picture, or "
       "cannot be helped. Without -o a drawing goes beside its picture; no file that is there is "
       "written over unless -o names it. With --all it looks for every picture of the game in DIR "
       "(or here) that prints too coarse, and says what would become of it; --accept writes the "
       "drawings beside the pictures and lets the lists and layouts name them. Pictures are always "
       "kept.",
       "quoin trace crab.png\nquoin trace scans/*.jpg -o art --fewest-nodes\n"
       "quoin trace crab.png -o crab.svg --colours 5 --difference crab-difference.png\n"
       "quoin trace --all reef\nquoin trace --all reef --accept good",
       1000,
       {{"--out", "FILE|FOLDER", "where the drawing goes, -o for short"},
        {"--colours", "N", "so many plain colours (1 to 64), else as many as it needs"},
        {"--palette", "LIST", "only these colours: #1d2b33,#f4e3c1,white"},
        {"--instead", "LIST",
         "other colours for some of the drawing's: #c65b3a=#dd7057,#fff=#f4e3c1"},
        {"--closest", "", "follow borders to a tenth of a pixel (so it is without being said)"},
        {"--fewest-nodes", "", "follow them to a fifth: about half the nodes"},
        {"--difference", "FILE", "also write a PNG in which glows what differs"},
        {"--all", "", "the coarse pictures of a game"},
        {"--accept", "WHICH", "with --all: good ones, all, or names of pictures with commas"},
        json_option},
       run_trace},
      {"straighten",
       "PHOTO... [options]",
       "make cards in photographs and screenshots square and flat",
       "Finds the card in a photograph that was taken at an angle, or all cards of a grid in a "
       "screenshot, and writes each as a PNG: straight, whole, with the pixels that it had and no "
       "more. Where the corners are not certain it says so; --shown draws them on the photograph, "
       "and --corners gives them by hand. Which way up a card is cannot be known: it is turned as "
       "little as possible. Without -o a card goes beside its photograph; no file that is there is "
       "written over unless -o names it, and photographs are always kept.",
       "quoin straighten photo.jpg\nquoin straighten photo.jpg --shown corners.png\n"
       "quoin straighten photo.jpg --corners \"415,194 1003,186 1180,1000 534,1143\"\n"
       "quoin straighten screenshot.png --grid -o art",
       1000,
       {{"--out", "FILE|FOLDER", "where the cards go, -o for short"},
        {"--shape", "SIZE", "the card's size, 63x88 or a name (63x88 when nothing is said)"},
        {"--one", "", "only one card, also where there are more"},
        {"--grid", "", "all cards of a grid"},
        {"--corners", "PLACES", "the four corners, \"x,y x,y x,y x,y\" in pixels"},
        {"--shown", "FILE", "also write the photograph as a PNG with the corners drawn"},
        {"--fill-corners", "", "fill outside round corners with the colour of the border"},
        {"--cut-out", "", "make the plain ground of each card transparent"},
        {"--reach", "N", "with --cut-out: how much is taken for the ground, 0 to 1 (0.5)"},
        {"--holes", "", "with --cut-out: also ground that the thing encloses"},
        json_option},
       run_straighten},
      {"cut-out",
       "PICTURE... [options]",
       "make the plain ground of pictures transparent",
       "Takes the plain ground of a picture away, from its rim inwards, also where it shades "
       "gently, and writes a PNG. Along the edge each pixel keeps as much as it had of the thing, "
       "and none of the old ground's colour. Without -o the new picture goes beside the old one, "
       "which is always kept; no file that is there is written over unless -o names it.",
       "quoin cut-out crab.jpg\nquoin cut-out crab.jpg -o art/crab.png --reach 0.7 --holes",
       1000,
       {{"--out", "FILE|FOLDER", "where the pictures go, -o for short"},
        {"--reach", "N", "how far from the ground's colour still is ground, 0 to 1 (0.5)"},
        {"--holes", "", "also take ground away that the thing encloses"},
        json_option},
       run_cut_out},
      {"palette",
       "PICTURE... [options] | --all [DIR] [options]",
       "find the colours of pictures",
       "Finds the colours of pictures together, the largest area first, each with a name in plain "
       "words. What is mixed along edges is no colour, and shades that are hardly told apart are "
       "one. Pictures with a colour profile (Display P3, Adobe RGB …) are brought to sRGB by it; "
       "those without are taken as sRGB, and it is said how many. With --all it looks at every "
       "picture that the game in DIR (or here) shows. --into writes the colours under [colours] in "
       "the game's game.toml, where they are used by name everywhere: as one step that the desk "
       "can "
       "take back. What stands there stays as it is.",
       "quoin palette crab.png clam.png\nquoin palette --all reef --most 8\n"
       "quoin palette scans/*.png --into reef",
       1000,
       {{"--most", "N", "so many colours at the most (1 to 64; 12)"},
        {"--all", "", "the pictures of a game"},
        {"--into", "DIR", "write them into this game"},
        json_option},
       run_palette},
      {"recolour",
       "PICTURE... [options]",
       "pull the colours of pictures to a palette",
       "Gives areas of a picture the nearest colour of a palette, exactly, when it is near enough; "
       "edges are mixed anew, gradients and everything else stay as they are. Of an SVG the "
       "colours "
       "in its text are changed. The palette is what the game in DIR names under [colours], or a "
       "list. Without -o the new picture goes beside the old one, which is always kept; no file "
       "that "
       "is there is written over unless -o names it.",
       "quoin recolour crab.png --like reef\n"
       "quoin recolour art/*.png --palette \"#1d2b33,#f4e3c1\" --reach 6 -o new",
       1000,
       {{"--out", "FILE|FOLDER", "where the picture goes, -o for short"},
        {"--like", "DIR", "the colours of this game"},
        {"--palette", "LIST", "these colours: #1d2b33,#f4e3c1,white"},
        {"--reach", "N", "how near a colour must be: CIEDE2000, 0 to 100 (10)"},
        json_option},
       run_recolour},
      {"sizes",
       "[cards|paper]",
       "list the card and paper sizes that have names",
       "Lists the sizes that can be called by name, with their source. Any other size is written "
       "as width x height in millimetres, 63.5x88.9, or in inches, 2.5x3.5in.",
       "quoin sizes cards",
       1,
       {},
       run_sizes},
      {"help",
       "[COMMAND|FINDING]",
       "explain a command, or a finding by its name",
       "Alone it lists the commands. With the name of a command or of a finding (the words in "
       "square brackets) it explains that one.",
       "quoin help make\nquoin help art.low-resolution",
       1,
       {},
       run_help},
      {"version", "", "say which version this is", "", "quoin version", 0, {}, run_version},
  };
}

int wrong_use(const Voices& voices, const std::string& what, const std::string& hint) {
  voices.err.line(voices.err.toned(Tone::error, "quoin:") + " " + what, 4);
  voices.err.line(voices.err.toned(Tone::good, "hint:") + " " + hint, 6);
  return exit_wrong_use;
}

std::string nearest_hint(const std::string& word, const std::vector<std::string>& known,
                         const std::string& otherwise) {
  const std::optional<std::string> meant = game::nearest(word, known);
  return meant ? fmt::format("did you mean {}?", *meant) : otherwise;
}

/// Sorts what was typed into words and options; what is wrong is answered in `fault` and `hint`.
struct Parsed {
  Asked asked;
  std::string fault, hint;
};

Parsed parse(const Command& command, const std::vector<std::string>& typed) {
  Parsed result;
  const std::string help = fmt::format("quoin help {}", command.name);
  std::vector<std::string> known;
  for (const Option& option : command.options) known.emplace_back(option.name);
  for (std::size_t i = 1; i < typed.size(); ++i) {
    std::string word = typed[i] == "-o" ? "--out" : typed[i];
    if (!word.starts_with("--") || word == "--") {
      result.asked.words.push_back(word);
      continue;
    }
    std::optional<std::string> value;
    if (const std::size_t equals = word.find('='); equals != std::string::npos) {
      value = word.substr(equals + 1);
      word.resize(equals);
    }
    const auto option = std::find_if(command.options.begin(), command.options.end(),
                                     [&](const Option& one) { return one.name == word; });
    if (option == command.options.end()) {
      result.fault = fmt::format("{} does not know {}", command.name, word);
      result.hint = nearest_hint(word, known, help);
      return result;
    }
    if (!option->value.empty() && !value && i + 1 < typed.size()) value = typed[++i];
    if (!option->value.empty() && !value) {
      result.fault = fmt::format("{} needs {} after it", word, option->value);
      result.hint = help;
      return result;
    }
    std::string& kept = result.asked.options[word];
    const bool is_list = option->value.find(',') != std::string_view::npos;
    kept = is_list && !kept.empty() ? kept + "," + value.value_or("") : value.value_or("");
  }
  if (static_cast<int>(result.asked.words.size()) > command.most_words) {
    result.fault = fmt::format("{} does not know what to do with \"{}\"", command.name,
                               result.asked.words.back());
    result.hint = help;
  }
  return result;
}

}  // namespace

std::optional<std::string> Asked::get(std::string_view name) const {
  const auto found = options.find(name);
  return found == options.end() ? std::nullopt : std::optional(found->second);
}

const std::vector<Command>& commands() {
  static const std::vector<Command> all = table();
  return all;
}

std::string commands_page() {
  std::string page =
      "# Commands\n\n<!-- Made from the table in src/cli/command.cpp by `./run accept`. -->\n\n"
      "Exit codes: 0 clean, 3 written with warnings, 2 something not written, 1 wrong use.\n";
  for (const Command& command : commands()) {
    page += fmt::format("\n## quoin {}\n\n`quoin {}{}{}`: {}.\n", command.name, command.name,
                        command.usage.empty() ? "" : " ", command.usage, command.summary);
    if (!command.text.empty()) page += fmt::format("\n{}\n", command.text);
    if (!command.options.empty()) page += "\n| option | meaning |\n| --- | --- |\n";
    for (const Option& option : command.options) {
      std::string value(option.value);
      for (std::size_t bar = value.find('|'); bar != std::string::npos;
           bar = value.find('|', bar + 2)) {
        value.insert(bar, "\\");
      }
      page += fmt::format("| `{}{}{}` | {} |\n", option.name, value.empty() ? "" : " ", value,
                          option.help);
    }
    page += fmt::format("\n```\n{}\n```\n", command.example);
  }
  return page;
}

int run(const std::vector<std::string>& typed, const Voices& voices) {
  if (typed.empty()) return run_help({}, voices);
  std::string name = typed.front();
  if (name == "--help" || name == "-h") name = "help";
  if (name == "--version") name = "version";
  std::vector<std::string> known;
  for (const Command& command : commands()) {
    known.emplace_back(command.name);
    if (command.name != name) continue;
    if (std::find(typed.begin(), typed.end(), "--help") != typed.end() && name != "help") {
      return run_help(Asked{{name}, {}}, voices);
    }
    const Parsed parsed = parse(command, typed);
    if (!parsed.fault.empty()) return wrong_use(voices, parsed.fault, parsed.hint);
    return command.run(parsed.asked, voices);
  }
  return wrong_use(voices, fmt::format("there is no command \"{}\"", name),
                   nearest_hint(name, known, "quoin help"));
}

}  // namespace quoin::cli
