#include "app/headless/command.h"
#include "app/headless/files.h"
#include "app/headless/text_out.h"
#include "core/base/text.h"
#include "core/history/revision_label.h"
#include "core/store/lineage_of_book.h"
#include "core/store/workbook.h"

#include <fmt/format.h>

#include <charconv>
#include <ostream>

namespace stillroom::headless {

namespace {

const store::DrinkSummary* named(const std::vector<store::DrinkSummary>& all, const std::string& name) {
    for (const store::DrinkSummary& each : all)
        if (base::fold(each.name) == base::fold(name)) return &each;
    return nullptr;
}

// The one asked for; else the house's, else the last kept.
const history::Revision* chosen(const std::vector<history::Revision>& all, const history::Drink& drink,
                                const std::string& number) {
    if (number.empty()) {
        for (const history::Revision& each : all)
            if (each.id == drink.house) return &each;
        return all.empty() ? nullptr : &all.back();
    }
    int wanted = 0;
    const auto [stop, error] = std::from_chars(number.data(), number.data() + number.size(), wanted);
    if (error != std::errc{} || stop != number.data() + number.size()) return nullptr;
    for (const history::Revision& each : all)
        if (each.number == wanted) return &each;
    return nullptr;
}

} // namespace

int runFork(const Options& options, Streams& streams) {
    const std::string& path = options.plain[0];
    const std::string name(base::trimmed(options.plain[1]));
    const base::SystemClock clock;
    const auto book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock);
    const auto all = book->summaries();
    const auto* from = named(all, options.value("--from"));
    if (!from)
        throw FileProblem(
            fmt::format("{}: there is no drink called \"{}\" in it.", path, options.value("--from")));
    if (name.empty()) throw FileProblem("The new drink needs a name. Nothing was changed.");
    if (named(all, name))
        throw FileProblem(
            fmt::format("{}: there is a drink called \"{}\" already. Nothing was changed.", path, name));
    const auto revisions = book->revisions(from->id);
    const auto* revision = chosen(revisions, *book->drink(from->id), options.value("--revision"));
    if (!revision)
        throw FileProblem(fmt::format("{}: {} has no such revision. Nothing was changed.", path, from->name));
    store::newDrinkFrom(*book, revision->id, name);
    while (book->search({}, 0).unread > 0) // so that it is found where the book is only read
        continue;
    streams.out << clean(fmt::format("{} begins as {}, {} is.", name, from->name,
                                     history::shortLabel(from->form, revision->number)))
                << "\n";
    return kDone;
}

} // namespace stillroom::headless
