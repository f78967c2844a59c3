#pragma once

#include "app/headless/options.h"

#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::headless {

enum ExitCode : int { kDone = 0, kProblem = 1, kWrongUsage = 2 };

// Where a command reads and writes. Text that came from outside is written through `clean` only.
struct Streams {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
};

// A job that needs no window. Commands are a table, so that help, dispatch and tests see the same list.
struct Command {
    std::string_view name;
    std::string_view summary; // one line
    std::string_view usage;   // "read [FILE|-] [--json]"
    std::string_view help;
    OptionRules rules;
    int (*run)(const Options& options, Streams& streams);
};

const std::vector<Command>& commands(); // the core-only ones

// Runs one command by its arguments (without its name): reads options, answers --help, and turns a
// workbook that cannot be used into one clear line and exit code 1.
int runCommand(const Command& command, const std::vector<std::string>& arguments, Streams& streams);

// "stillroom --help": what the program does without a window, and `more` for what the window adds.
std::string overview(const std::vector<Command>& more);

// No control or text-reversing characters, so that a pasted recipe cannot drive a terminal.
std::string clean(std::string_view text);

int runRead(const Options& options, Streams& streams);
int runExport(const Options& options, Streams& streams);
int runImport(const Options& options, Streams& streams);
int runNew(const Options& options, Streams& streams);
int runShow(const Options& options, Streams& streams);
int runCheck(const Options& options, Streams& streams);
int runLarder(const Options& options, Streams& streams);
int runReach(const Options& options, Streams& streams);
int runBuy(const Options& options, Streams& streams);
int runPanel(const Options& options, Streams& streams);
int runFork(const Options& options, Streams& streams);
int runSearch(const Options& options, Streams& streams);
int runConvert(const Options& options, Streams& streams);

} // namespace stillroom::headless
