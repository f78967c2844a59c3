#include "app/headless/command.h"

#include "core/store/workbook.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace stillroom::headless {

int runCheck(const Options& options, Streams& streams) {
    const std::string& path = options.plain.front();
    const store::CheckReport report = store::check(path);
    streams.out << fmt::format(
        "Re-read: {} drinks, {} drafts, {} revisions, {} fact states, {} tastings"
        " ({} of them amend another), {} panels with {} answers, {} photos in {} places"
        " ({:.1f} MB).\n",
        report.drinks, report.drafts, report.revisions, report.factStates, report.tastings, report.amendments,
        report.panels, report.answers, report.photos, report.photoLinks,
        static_cast<double>(report.photoBytes) / 1e6);
    if (report.outcome == store::OpenOutcome::Upgraded)
        streams.out << "It is of an older schema, and was checked as it would be after its upgrade.\n";
    if (report.outcome == store::OpenOutcome::NewerCompatible)
        streams.out << "A newer Stillroom wrote it: what this one does not know of was not looked at.\n";
    if (report.problems.empty()) {
        streams.out << "Sound.\n";
        return kDone;
    }
    for (const store::CheckProblem& problem : report.problems)
        streams.err << clean(fmt::format("{}: {}: {}", path, problem.where, problem.what)) << "\n";
    const bool damaged =
        std::any_of(report.problems.begin(), report.problems.end(), [](const store::CheckProblem& problem) {
            return problem.sort == store::CheckSort::Damage;
        });
    streams.out << fmt::format(
        "{} found. Nothing was changed. {}\n",
        report.problems.size() == 1 ? "1 problem" : fmt::format("{} problems", report.problems.size()),
        damaged ? "Keep this file, and go back to a copy." : "Nothing is lost: put right what is named.");
    return kProblem;
}

} // namespace stillroom::headless
