// The larder page at 1440×900: 2,000 ingredients scrolled and walked through, and what an edit of one that
// ten thousand specs use does, from the key to what is shown. Prints; asserts nothing.
#include "tests/bench/big_book.h"
#include "ui/main_window.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/larder/larder_list.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QScrollBar>
#include <QStandardPaths>
#include <QTableView>
#include <QTemporaryDir>
#include <QWheelEvent>
#include <QtTest/QTest>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <vector>

using namespace stillroom;
using namespace stillroom::ui;

namespace {

// What this thread has worked so far, whatever else the machine was doing.
double cpuMs(clockid_t of = CLOCK_THREAD_CPUTIME_ID) {
    timespec now{};
    clock_gettime(of, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

double at(const std::vector<double>& sorted, double share) {
    return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
}

struct Times {
    std::vector<double> clock, busy;

    template <class Call>
    void of(Call call) {
        const double cpu = cpuMs();
        QElapsedTimer timer;
        timer.start();
        call();
        clock.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
        busy.push_back(cpuMs() - cpu);
    }
    void print(const char* what) {
        std::sort(clock.begin(), clock.end());
        std::sort(busy.begin(), busy.end());
        std::printf("%s, %zu times\n", what, clock.size());
        std::printf("  by the clock      median %.2f ms, p99 %.2f ms, worst %.2f ms\n", at(clock, 0.5),
                    at(clock, 0.99), clock.back());
        std::printf("  processor time    median %.2f ms, p99 %.2f ms, worst %.2f ms (what an idle machine "
                    "needs)\n",
                    at(busy, 0.5), at(busy, 0.99), busy.back());
    }
};

// Layout and paint are posted; this runs them to the end.
void paintAll() {
    QApplication::sendPostedEvents();
    QApplication::processEvents();
}

LarderPage* openLarder(MainWindow& window) {
    window.actions().at(Act::Larder)->trigger();
    auto* page = qobject_cast<LarderPage*>(window.page());
    paintAll();
    return page;
}

std::vector<larder::Ingredient> manyBottles(const WorkbookSession& book, int count) {
    std::vector<larder::Ingredient> all;
    const auto kinds = book.larder().all();
    for (int i = 0; i < count; ++i) {
        const auto& kind = *kinds[static_cast<std::size_t>(i) % kinds.size()];
        larder::Ingredient bottle;
        bottle.id = base::IngredientId::random();
        bottle.sort = larder::IngredientSort::Bottle;
        bottle.name = kind.name + ", lot " + std::to_string(i);
        bottle.kind = kind.id;
        bottle.facts = kind.facts;
        larder::Pack pack;
        pack.id = base::PackId::random();
        pack.price = {1200 + i, book.houseRules().currency};
        pack.forMl = 700;
        pack.pricedOn = "2026-11-02";
        bottle.packs = {pack};
        all.push_back(std::move(bottle));
    }
    return all;
}

void measureScrolling(const QString& path) {
    MainWindow window;
    window.resize(1440, 900);
    if (!window.desk().createBook(path, {})) return;
    auto& book = *window.desk().book();
    book.saveIngredients(manyBottles(book, 2000));
    window.show();
    QApplication::setActiveWindow(&window);
    auto* page = openLarder(window);
    if (page == nullptr) return;
    auto& table = page->list().table();
    table.setFocus();
    std::printf("%d ingredients in the list\n", page->list().model().rowCount());
    Times wheel;
    const QPointF middle(table.viewport()->rect().center());
    for (int i = 0; i < 600; ++i)
        wheel.of([&] {
            QWheelEvent event(middle, table.viewport()->mapToGlobal(middle), {}, {0, i < 300 ? -120 : 120},
                              Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
            QApplication::sendEvent(table.viewport(), &event);
            paintAll();
        });
    wheel.print("one notch of the wheel to end of paint, 1440x900");
    Times dragged;
    auto* bar = table.verticalScrollBar();
    for (int i = 0; i < 300; ++i)
        dragged.of([&] {
            bar->setValue((i * 977) % std::max(1, bar->maximum()));
            paintAll();
        });
    dragged.print("the bar dragged anywhere to end of paint");
    Times walked;
    for (int i = 0; i < 200; ++i)
        walked.of([&] {
            QTest::keyClick(static_cast<QWidget*>(&table), Qt::Key_Down);
            paintAll();
        });
    walked.print("arrow down to the next ingredient and all of its sheet painted");
    Times filtered;
    page->list().focusFilter();
    for (int i = 0; i < 60; ++i)
        filtered.of([&] {
            QTest::keyClick(static_cast<QWidget*>(&page->list().filterField()),
                            i % 2 == 0 ? Qt::Key_G : Qt::Key_Backspace);
            paintAll();
        });
    filtered.print("a letter of the filter to end of paint");
}

// The one that most specs use.
base::IngredientId mostUsed(WorkbookSession& book, std::size_t& count) {
    base::IngredientId best;
    for (const auto* each : book.larder().all()) {
        const std::size_t uses = book.book().usesOf(each->id).size();
        if (uses <= count) continue;
        count = uses;
        best = each->id;
    }
    return best;
}

void measureImpact(const QString& path) {
    MainWindow window;
    window.resize(1440, 900);
    if (!window.desk().openBook(path)) return;
    auto& book = *window.desk().book();
    window.show();
    QApplication::setActiveWindow(&window);
    auto* page = openLarder(window);
    std::size_t count = 0;
    const auto id = mostUsed(book, count);
    if (page == nullptr || id.isNull()) return;
    auto& edit = page->edit();
    std::printf("an ingredient that %zu drafts and revisions name\n", count);
    const auto once = [&](double strength) {
        larder::Ingredient next = edit.now();
        auto& fact = next.facts.abvPercent;
        fact = larder::Fact::single(strength, larder::SourceKind::Label, "label");
        edit.set(std::move(next));
        return QTest::qWaitFor([&] { return edit.impact() != nullptr; }, 60'000);
    };
    const auto shown = [&](const char* what, double strength) {
        const double cpu = cpuMs(CLOCK_PROCESS_CPUTIME_ID);
        QElapsedTimer timer;
        timer.start();
        if (!once(strength)) {
            std::printf("%s: not found within a minute\n", what);
            return;
        }
        paintAll();
        std::printf("%s: found after %.0f ms, painted after %.0f ms (%.0f ms of processor time on all "
                    "cores), %zu read "
                    "differently\n",
                    what, edit.impact()->milliseconds, static_cast<double>(timer.nsecsElapsed()) / 1e6,
                    cpuMs(CLOCK_PROCESS_CPUTIME_ID) - cpu, edit.impact()->impact.drinks.changed.size());
    };
    QElapsedTimer reading;
    reading.start();
    edit.choose(id);
    if (!QTest::qWaitFor([&] { return edit.uses() && edit.uses()->specs.size() >= count; }, 60'000)) return;
    std::printf("chosen: its specs read and kept after %.0f ms (while its facts are looked at)\n",
                static_cast<double>(reading.nsecsElapsed()) / 1e6);
    shown("the first edit", 41.5);
    for (const double strength : {42.5, 43.5, 44.5, 45.5, 46.5})
        shown("one more edit", strength);
    QElapsedTimer accepting;
    accepting.start();
    edit.accept();
    paintAll();
    std::printf("accepted and painted after %.0f ms\n", static_cast<double>(accepting.nsecsElapsed()) / 1e6);
    accepting.restart();
    edit.takeBack();
    paintAll();
    std::printf("taken back and painted after %.0f ms\n",
                static_cast<double>(accepting.nsecsElapsed()) / 1e6);
}

} // namespace

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QApplication application(argc, argv);
    application.setApplicationName(QStringLiteral("stillroom-bench"));
    Theme::current().install();
    const QTemporaryDir dir;
    // A path on the command line keeps the book of 2,000, for a picture of it.
    measureScrolling(argc > 1 ? QString::fromLocal8Bit(argv[1])
                              : dir.filePath(QStringLiteral("many.stillroom")));
    const QString big = dir.filePath(QStringLiteral("big.stillroom"));
    bench::BigBookSize size;
    size.drinks = 3000;
    size.revisions = 100'000; // ten thousand of them name one and the same
    size.tastings = 0;
    if (argc > 2) { // a big book made before
        measureImpact(QString::fromLocal8Bit(argv[2]));
        return 0;
    }
    bench::makeBigBook(toCore(big), size);
    measureImpact(big);
    return 0;
}
