#include "app/headless/command.h"

#include "app/headless/words.h"
#include "core/base/text.h"
#include "core/store/error.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <ostream>

namespace stillroom::headless {

namespace {

constexpr std::string_view kReadHelp =
    R"(Reads a drink as people write it and prints what it understood: each line beside its reading, what is
unsure, the numbers at each stage, what is missing, and cautions. Reads standard input when FILE is - or
absent. Nothing is stored.

  --lines          every line of the input alone, as an ingredient line
  --larder FILE    facts over the handbook's, as JSON: {"ingredients": [{"name": "gin", "abv_percent": 47,
                   "sugar_g_per_l": 0, "acid_g_per_l": 0, "density_kg_per_m3": 940,
                   "price": {"amount": "12.50", "currency": "EUR", "for_ml": 700}}]}
  --workbook FILE  names, bottles, prices and house measures of this workbook
  --more           further readings too: freezing, pH, sweetness, fizz, proof and more, and standard drinks
  --held           what the drink does over half an hour in the glass
  --json           all of it as JSON (DEVELOPERS.md has its shape)

Exit code: 0 read; 1 a line was refused or not understood, or none names something poured, or a file has a
problem; 2 wrong usage.
)";

constexpr std::string_view kNewHelp =
    R"(Makes a workbook where nothing stands yet.

  --sample         filled with the sample: the Low Lamp's winter set, Nine Lights

Exit code: 0 made; 1 it could not be made, and nothing was changed; 2 wrong usage.
)";

constexpr std::string_view kExportHelp =
    R"(Writes all of a workbook as JSON in an open form (core/exchange/book_json.h has every key): drinks with each
revision, draft and tasting, ingredients, panels, scales, searches and photos. The workbook is only read.

  --out FILE       into a new file; default: standard output

Exit code: 0 written; 1 the file has a problem, or FILE is there already; 2 wrong usage.
)";

constexpr std::string_view kImportHelp =
    R"(Makes a workbook of what export wrote. What it computes is computed anew, with the facts in the file.

  stillroom import book.json new.stillroom

Exit code: 0 made; 1 the file cannot be read, or the workbook is there already: nothing is left; 2 wrong usage.
)";

constexpr std::string_view kShowHelp =
    R"(Lists the drinks of a workbook, or shows one: its spec, numbers, revisions with their reasons, tastings.
The workbook is opened for reading only.

  --drink NAME     one drink; case and accents do not matter
  --more           further readings of that drink too, by the facts it was kept with
  --held           what that drink does over half an hour in the glass
  --on DAY         what it cost on that day, or each drink: 2026-03-01
  --json           the same as JSON (DEVELOPERS.md has its shape)

Exit code: 0 shown; 1 no such drink or day, or the file has a problem; 2 wrong usage.
)";

constexpr std::string_view kCheckHelp =
    R"(Checks a workbook: the file's integrity, its references, and every fact state, revision and tasting
re-read and compared with its hash; marks, lineage, numbers, authors and order of rows held against each other.
Changes nothing. It cannot see that the newest tasting or answer, or the step that closed a panel, was taken out
by hand: nothing that came after tells of it.

Exit code: 0 sound; 1 something is wrong, and standard error says where; 2 wrong usage.
)";

constexpr std::string_view kLarderHelp =
    R"(Lists what a workbook's larder holds of its own, or shows one thing: its facts with their sources, packs,
stock, lots and where it is used. With an edit, what that would do to every drink. The workbook is only read.

  --name NAME      one ingredient, the handbook's kinds too
  --price P/SIZE   as if it cost so much: "26.90/700 ml", "4.80 GBP/100 g", "16/50 pieces"
  --fact KEY=N     as if its fact were another: abv_percent=45
  --usable SHARE   as if so much of a purchase were used: 17/20
  --json           the same as JSON (DEVELOPERS.md has its shape)

Exit code: 0 shown; 1 no such thing, an edit that cannot be, or the file has a problem; 2 wrong usage.
)";

constexpr std::string_view kForkHelp =
    R"(Begins a new drink in a workbook out of a revision of another: its spec as a first draft, and "after" that
revision as where it comes from. "show --drink" then says what has changed since, and what came after what.

  --from NAME      the drink it comes after; case and accents do not matter
  --revision N     which revision of it; default: the house's, else the last kept

  stillroom fork BOOK "Second Light" --from "Ox Skerry" --revision 3

Exit code: 0 begun; 1 no such drink or revision, the name is taken, or the file has a problem: nothing was
changed; 2 wrong usage.
)";

constexpr std::string_view kSearchHelp =
    R"(Finds drinks of a workbook by words of their names, tags, lines, briefs, notes, reasons or tastings: all of the
words, each as the beginning of one, with accents and slips of the finger forgiven. What was found stands between
brackets. The workbook is only read.

  --json           the same as JSON (DEVELOPERS.md has its shape)

  stillroom search BOOK lemmon honey

Exit code: 0 found; 1 nothing was found, or the file has a problem; 2 wrong usage.
)";

constexpr std::string_view kReachHelp =
    R"(Says which drinks the shelf of a workbook lets one make, what the others lack, what one purchase brings, and
what fell with what is off. The workbook is only read.

  --json           the same as JSON (DEVELOPERS.md has its shape)

Exit code: 0 shown; 1 the file has a problem; 2 wrong usage.
)";

constexpr std::string_view kBuyHelp =
    R"(A shopping list for so many serves of these drinks, down through what is made here, less what stands on the
shelf, in whole packs by supplier. The workbook is only read.

  --whole          do not take off what stands on the shelf
  --margin N       per cent more fruit than its usual yield asks for; default 25
  --json           the same as JSON (DEVELOPERS.md has its shape)

  stillroom buy BOOK "Ox Skerry=40" "Quill Point=12"

Exit code: 0 shown; 1 no such drink, no such number, or the file has a problem; 2 wrong usage.
)";

constexpr std::string_view kPanelHelp =
    R"(Lists the blind panels of a workbook, or shows one: while it is open who has answered, once it is closed its
verdict with the numbers behind it and every answer. The workbook is only read.

  --name NAME      one session; case and accents do not matter, of several the newest
  --sheets         its taster sheets as text: codes, and nothing of what is in the cups
  --key            its pourer's key as text: who reads it is no longer blind
  --json           the same as JSON (DEVELOPERS.md has its shape)

Exit code: 0 shown; 1 no such session, or the file has a problem; 2 wrong usage.
)";

constexpr std::string_view kConvertHelp =
    R"(The sums people do beside a recipe: strength, hydrometer, syrup, freezing, pH, fizz, dilution, blending,
measures and more, each with its source. Values as people write them: 22,5  1/2  "45 ml"  "68 F"  2:1

  --list           each conversion with its inputs, units, ranges and source
  --json           the same as JSON (DEVELOPERS.md has its shape)

  stillroom convert dilute volume=1750 abv=50 target=30

Exit code: 0 converted; 1 a value is missing or outside its range, and standard error says which; 2 wrong
usage.
)";

} // namespace

const std::vector<Command>& commands() {
    static const std::vector<Command> table{
        {"read",
         "read a drink from text and compute it",
         "read [FILE|-] [--lines] [--larder FILE] [--workbook FILE] [--more] [--held] [--json]",
         kReadHelp,
         {{"--lines", "--more", "--held", "--json"}, {"--larder", "--workbook"}, 0, 1},
         runRead},
        {"new",
         "make a workbook, empty or with the sample",
         "new WORKBOOK [--sample]",
         kNewHelp,
         {{"--sample"}, {}, 1, 1},
         runNew},
        {"export",
         "write a workbook as JSON",
         "export WORKBOOK [--out FILE]",
         kExportHelp,
         {{}, {"--out"}, 1, 1},
         runExport},
        {"import",
         "make a workbook of such JSON",
         "import FILE WORKBOOK",
         kImportHelp,
         {{}, {}, 2, 2},
         runImport},
        {"show",
         "show what a workbook holds",
         "show WORKBOOK [--drink NAME [--more] [--held]] [--on DAY] [--json]",
         kShowHelp,
         {{"--more", "--held", "--json"}, {"--drink", "--on"}, 1, 1},
         runShow},
        {"search",
         "find drinks by words",
         "search WORKBOOK WORDS… [--json]",
         kSearchHelp,
         {{"--json"}, {}, 2, 60},
         runSearch},
        {"check", "check that a workbook is sound", "check WORKBOOK", kCheckHelp, {{}, {}, 1, 1}, runCheck},
        {"larder",
         "list the larder, or try an edit of it",
         "larder WORKBOOK [--name NAME [--price P/SIZE] [--fact KEY=N] [--usable SHARE]] [--json]",
         kLarderHelp,
         {{"--json"}, {"--name", "--price", "--fact", "--usable"}, 1, 1},
         runLarder},
        {"reach",
         "say what the shelf lets one make",
         "reach WORKBOOK [--json]",
         kReachHelp,
         {{"--json"}, {}, 1, 1},
         runReach},
        {"buy",
         "list what to buy for so many serves",
         "buy WORKBOOK DRINK=SERVES… [--whole] [--margin N] [--json]",
         kBuyHelp,
         {{"--whole", "--json"}, {"--margin"}, 2, 200},
         runBuy},
        {"fork",
         "begin a new drink from a revision",
         "fork WORKBOOK NEW-NAME --from NAME [--revision N]",
         kForkHelp,
         {{}, {"--from", "--revision"}, 2, 2},
         runFork},
        {"panel",
         "list the blind panels, or read one",
         "panel WORKBOOK [--name NAME [--sheets | --key]] [--json]",
         kPanelHelp,
         {{"--sheets", "--key", "--json"}, {"--name"}, 1, 1},
         runPanel},
        {"convert",
         "convert strengths, syrups, measures and more",
         "convert NAME key=value… [--json] | convert --list [--json]",
         kConvertHelp,
         {{"--list", "--json"}, {}, 0, 40},
         runConvert},
    };
    return table;
}

int runCommand(const Command& command, const std::vector<std::string>& arguments, Streams& streams) {
    for (const std::string& word : arguments) {
        if (word == "--") break;
        if (word == "--help" || word == "-h") {
            streams.out << "stillroom " << command.usage << "\n\n" << command.help;
            return kDone;
        }
    }
    const auto options = readOptions(arguments, command.rules);
    if (!options) {
        streams.err << "stillroom " << command.name << ": " << clean(options.error()) << ".\n"
                    << "Usage: stillroom " << command.usage << "\n";
        return kWrongUsage;
    }
    try {
        const int code = command.run(*options, streams);
        streams.out.flush();
        if (!streams.out) {
            streams.err << "stillroom " << command.name << ": the output could not be written.\n";
            return kProblem;
        }
        return code;
    } catch (const store::StoreError& error) {
        streams.err << "stillroom " << command.name << ": " << clean(storeErrorWords(error)) << "\n";
    } catch (const std::exception& error) {
        streams.err << "stillroom " << command.name << ": " << clean(error.what()) << "\n";
    }
    return kProblem;
}

std::string overview(const std::vector<Command>& more) {
    std::string text = "Stillroom, a workbench for developing mixed drinks.\n\n"
                       "  stillroom [WORKBOOK | --sample]   open the window\n\n"
                       "Without a window:\n";
    for (const auto* list : {&commands(), &more})
        for (const Command& command : *list)
            text += fmt::format("  stillroom {:<8} {}\n", command.name, command.summary);
    return text +
           "\nstillroom COMMAND --help says more. Cautions shown are reminders, not licensed advice.\n";
}

std::string clean(std::string_view text) {
    return base::withoutControls(text);
}

} // namespace stillroom::headless
