#include "app/headless/command.h"

#include "core/store/workbook.h"

#include <fmt/format.h>

#include <ostream>

namespace stillroom::headless {

int runCheck(const Options& options, Streams& streams) {
    const std::string& path = options.plain.front();
    const store::CheckReport report = store::check(path);
    streams.out << fmt::format("{} drinks, {} drafts, {} revisions, {} tastings, {} fact states re-read.\n",
                               report.drinks, report.drafts, report.revisions, report.tastings,
                               report.factStates);
    if (report.problems.empty()) {
        streams.out << "Sound.\n";
        return kDone;
    }
    for (const store::CheckProblem& problem : report.problems)
        streams.err << clean(fmt::format("{}: {}: {}", path, problem.where, problem.what)) << "\n";
    streams.out << fmt::format(
        "{} found. Nothing was changed. Keep this file, and go back to a copy.\n",
        report.problems.size() == 1 ? "1 problem" : fmt::format("{} problems", report.problems.size()));
    return kProblem;
}

} // namespace stillroom::headless
