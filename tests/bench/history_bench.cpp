// A trail of 500 revisions and a side by side of four, as the window draws them. Prints what each step takes,
// by the processor's time of this thread; measures, asserts nothing.
#include "core/exchange/read_text.h"
#include "ui/panels/drawing_values.h"
#include "ui/panels/side_by_side/load.h"
#include "ui/panels/side_by_side/side_by_side_page.h"
#include "ui/panels/side_by_side/side_view.h"
#include "ui/panels/trail_panel.h"
#include "ui/session/desk.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QImage>
#include <QPainter>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QtTest/QTest>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <functional>
#include <vector>

using namespace stillroom;
using namespace stillroom::ui;

namespace {

constexpr int kRevisions = 500;
constexpr int kRounds = 40;

double cpuMs() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

void measure(const char* what, int rounds, const std::function<void()>& run) {
    std::vector<double> times;
    for (int i = 0; i < rounds; ++i) {
        const double start = cpuMs();
        run();
        times.push_back(cpuMs() - start);
    }
    std::sort(times.begin(), times.end());
    std::printf("  %-58s median %7.2f ms, worst %7.2f ms\n", what, times[times.size() / 2], times.back());
}

spec::Spec sour(const WorkbookSession& book) {
    spec::Spec spec;
    for (const char* text : {"45 ml London dry gin", "15 ml gentian liqueur", "22.5 ml lemon juice",
                             "20 ml simple syrup", "2 dashes orange bitters", "10 ml peated Scotch whisky"}) {
        auto line = exchange::readLine(text, book.readOptions()).line;
        line.ingredient = book.larder().match(line.name).ingredient;
        spec.lines.push_back(line);
    }
    spec.method = exchange::readMethod("Shake 12 s with wet cubes, strain.");
    spec.glass = "Low tumbler, over one 45 mm cube.";
    return spec;
}

// Every tenth is branched off and goes nowhere, every fiftieth has two drafts on it.
void fill(Desk& desk) {
    auto& book = desk.book()->book();
    auto& draft = *desk.draft();
    std::vector<base::RevisionId> kept;
    auto spec = draft.spec();
    for (int i = 0; i < kRevisions; ++i) {
        spec.lines[static_cast<std::size_t>(i % 6)].poured.amount =
            quantity::Amount::exact(*quantity::Rational::make(40 + 7 * i % 23, 2));
        if (i % 10 == 9) {
            const auto side = book.branch(kept.back());
            book.saveDraft(side.id, spec);
            book.keep(side.id, "a try that went nowhere: too dry");
        } else {
            book.saveDraft(draft.draft().id, spec);
            const auto revision =
                book.keep(draft.draft().id, "a little less of the one, for a longer finish");
            if (revision) kept.push_back(revision->id);
        }
    }
}

QImage image(QSize size) {
    return QImage(size, QImage::Format_ARGB32_Premultiplied);
}

void measureTrail(Desk& desk) {
    DrinkHistory history;
    history.setDraft(desk.draft());
    std::printf("trail, %zu revisions and %zu other drafts, 1180x176\n", history.revisions().size(),
                history.otherDrafts().size());
    measure("reading them from the book, what changed worked out", 3, [&] {
        DrinkHistory fresh;
        fresh.setDraft(desk.draft());
    });
    measure("reading them again after a keep", 5, [&] { history.reload(); });
    measure("marks from revisions", kRounds, [&] { trailOf(history); });
    auto values = trailOf(history);
    values.marks.push_back(draftMark(history, *desk.draft()));
    measure("first lay-out, every text measured", 5, [&] {
        Trail trail;
        trail.resize(1180, 176);
        trail.setValues(values);
    });
    Trail trail;
    trail.resize(1180, 176);
    trail.setValues(values);
    auto canvas = image(trail.size());
    measure("drawing", kRounds, [&] { trail.render(&canvas); });
    int step = 0;
    measure("an edit of the draft, to the end of drawing", kRounds, [&] {
        values.marks.back().changed = QString::number(++step);
        trail.setValues(values);
        trail.render(&canvas);
    });
    trail.show();
    trail.setFocus();
    measure("an arrow key, to the end of drawing", kRounds, [&] {
        QTest::keyClick(&trail, Qt::Key_Left);
        trail.render(&canvas);
    });
    for (int i = 0; i < 200; ++i) { // every run unfolded
        QTest::keyClick(&trail, Qt::Key_Left);
        QTest::keyClick(&trail, Qt::Key_Return);
    }
    std::printf("  %zu of them unfolded:\n", trail.geometry().items.size());
    measure("drawing, unfolded", kRounds, [&] { trail.render(&canvas); });
    measure("an arrow key, unfolded, to the end of drawing", kRounds, [&] {
        QTest::keyClick(&trail, Qt::Key_Right);
        trail.render(&canvas);
    });
}

void measureSides(Desk& desk) {
    auto& book = desk.book()->book();
    const auto drink = desk.draft()->drink().id;
    const auto revisions = book.revisions(drink);
    std::vector<SideRef> refs;
    for (const std::size_t at : {std::size_t{0}, std::size_t{100}, std::size_t{300}})
        refs.push_back({revisions[at].id, std::nullopt});
    refs.push_back({std::nullopt, desk.draft()->draft().id});
    const auto now = desk.book()->clock().now();
    std::printf("side by side of four, 1440x900\n");
    measure("reading the four from the book", 5, [&] { loadSideBySide(book, drink, refs, now); });
    auto values = loadSideBySide(book, drink, refs, now);
    measure("what may be added to them", 3, [&] { furtherColumns(book, drink, refs, now); });
    for (const bool all : {false, true}) {
        std::printf(all ? "  every reading at every stage:\n" : "  as served:\n");
        values.stage = all ? std::nullopt : std::optional(spec::Stage::Served);
        measure("the table", kRounds, [&] { sideTable(values); });
        SideView view;
        view.resize(1400, 800);
        view.setValues(values);
        auto canvas = image(QSize(1400, 800));
        measure("drawing the columns", kRounds, [&] { view.render(&canvas, {}, QRect(0, 0, 1400, 800)); });
        view.show();
        view.setFocus();
        bool left = true;
        measure("moving the base, to the end of drawing", kRounds, [&] {
            QTest::keyClick(&view, left ? Qt::Key_Left : Qt::Key_Right);
            left = !left;
            view.render(&canvas, {}, QRect(0, 0, 1400, 800));
        });
        SideBySidePage page;
        page.resize(1440, 900);
        page.setValues(values);
        page.show();
        QApplication::processEvents();
        auto whole = image(QSize(1440, 900));
        measure("drawing the whole page", kRounds, [&] { page.render(&whole); });
    }
}

} // namespace

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QApplication application(argc, argv);
    application.setApplicationName(QStringLiteral("stillroom-bench"));
    Theme::current().install();
    const QTemporaryDir dir;
    Desk desk;
    if (!desk.createBook(dir.filePath(QStringLiteral("b.stillroom")), {}) ||
        !desk.newDrink(history::DrinkForm::Drink, QStringLiteral("Ox Skerry"), sour(*desk.book()))) {
        std::fprintf(stderr, "the book could not be made\n");
        return 1;
    }
    fill(desk);
    measureTrail(desk);
    measureSides(desk);
    return 0;
}
