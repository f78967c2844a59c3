// Measures the store on a large workbook: store_bench [WORKBOOK]. Without an argument the workbook is made
// in the temporary folder and removed afterwards; with one, it is made there if missing, and stays.
#include "core/store/workbook.h"
#include "tests/bench/big_book.h"
#include "tests/bench/search_measure.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <iostream>
#include <vector>

using namespace stillroom;

namespace {

using Time = std::chrono::steady_clock;

double msSince(Time::time_point start) {
    return std::chrono::duration<double, std::milli>(Time::now() - start).count();
}

template <class Work>
double once(Work&& work) {
    const auto start = Time::now();
    work();
    return msSince(start);
}

template <class Work>
void many(const char* what, int times, Work&& work) {
    std::vector<double> ms;
    for (int i = 0; i < times; ++i)
        ms.push_back(once([&] { work(i); }));
    std::sort(ms.begin(), ms.end());
    std::printf("%-34s p50 %8.3f ms   p99 %8.3f ms   (%d times)\n", what, ms[ms.size() / 2],
                ms[ms.size() * 99 / 100], times);
}

void report(const char* what, double ms) {
    std::printf("%-34s %12.3f ms\n", what, ms);
}

// The thing that most lines name, and an edit of it that is undone again.
void measureUses(store::Workbook& book) {
    const auto larder = book.larder();
    const larder::Ingredient* most = nullptr;
    std::size_t uses = 0;
    for (const larder::Ingredient* ingredient : larder.all())
        if (const auto found = book.usesOf(ingredient->id).size(); found > uses) {
            uses = found;
            most = ingredient;
        }
    if (most == nullptr) return;
    std::printf("  %s: %zu uses\n", most->name.c_str(), uses);
    many("usesOf", 50, [&](int) { book.usesOf(most->id); });
    larder::Ingredient edited = *most;
    edited.facts.abvPercent = larder::Fact{39, 39, 39, larder::SourceKind::Label, "measured"};
    const larder::Ingredient before = *most;
    many("saveIngredients of that one", 20,
         [&](int i) { book.saveIngredients({i % 2 == 0 ? edited : before}); });
    report("larder after it", once([&] { book.larder(); }));
}

void measure(const std::string& path) {
    const base::SystemClock clock;
    std::unique_ptr<store::Workbook> book;
    const double before = bench::residentMb();
    report("open", once([&] { book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock); }));
    std::vector<store::DrinkSummary> summaries;
    report("summaries, the first time", once([&] { summaries = book->summaries(); }));
    many("summaries", 20, [&](int) { book->summaries(); });
    int revisions = 0;
    for (const auto& summary : summaries)
        revisions += summary.revisions;
    std::printf("  %zu drinks, %d revisions, %ju MB\n", summaries.size(), revisions,
                static_cast<std::uintmax_t>(std::filesystem::file_size(path) / 1000000));
    std::printf("  %.0f MB resident with the summaries, %.0f MB more than before it was opened\n",
                bench::residentMb(), bench::residentMb() - before);
    report("larder, the first time", once([&] { book->larder(); }));
    many("larder", 100, [&](int) { book->larder(); });

    measureUses(*book);
    bench::measureSearch(*book);

    const auto drinkAt = [&](int i) {
        return summaries[static_cast<std::size_t>(i * 37) % summaries.size()].id;
    };
    many("revisions of a drink", 200, [&](int i) { book->revisions(drinkAt(i)); });
    many("drafts of a drink", 200, [&](int i) { book->drafts(drinkAt(i)); });

    const auto draft = book->drafts(drinkAt(1)).at(0);
    auto spec = draft.spec;
    const auto edit = [&](int i) {
        spec.lines[0].poured.amount = quantity::Amount::exact(20 + i % 31);
        spec.method.text = "edit " + std::to_string(i);
        book->saveDraft(draft.id, spec);
    };
    many("saveDraft", 2000, edit);
    many("saveDraft, nothing changed", 2000, [&](int) { book->saveDraft(draft.id, spec); });
    many("flush after one edit", 50, [&](int i) {
        edit(i + 5000);
        book->flush();
    });
    many("keep", 100, [&](int i) {
        edit(i + 10000);
        book->keep(draft.id, "measured");
    });
    const auto revision = book->revisions(draft.drink).back();
    const auto taster = book->people().at(0).id;
    many("addTasting", 100, [&](int) {
        tasting::Tasting tasting;
        tasting.revision = revision.id;
        tasting.taster = taster;
        tasting.note = "measured";
        book->addTasting(tasting);
    });
    report("close", once([&] { book.reset(); }));
    store::CheckReport checked;
    report("check", once([&] { checked = store::check(path); }));
    std::printf("  %d revisions re-read, %zu problems\n", checked.revisions, checked.problems.size());
}

} // namespace

int main(int argc, char* argv[]) {
    const bool keepFile = argc > 1;
    const std::string path =
        keepFile ? argv[1] : (std::filesystem::temp_directory_path() / "stillroom-bench.stillroom").string();
    try {
        if (!keepFile) std::filesystem::remove(path);
        if (!std::filesystem::exists(path))
            report("making the workbook", once([&] { bench::makeBigBook(path, {}); }));
        measure(path);
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
    if (!keepFile) std::filesystem::remove(path);
    return 0;
}
