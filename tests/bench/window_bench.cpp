// Key event to end of paint in the whole window at 1440×900, over a few hundred keystrokes in an amount cell.
// Prints p50, p99 and the worst; measures, asserts nothing.
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/gauges_panel.h"
#include "ui/panels/sheet_panel.h"
#include "ui/session/line_entry.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"
#include "ui/widgets/spec_table.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QtTest/QTest>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <vector>

using namespace stillroom;
using namespace stillroom::ui;

namespace {

constexpr int kRounds = 60;

// What this thread has worked so far, whatever else the machine was doing.
double cpuMs() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

spec::Spec sour(const WorkbookSession& book) {
    spec::Spec spec;
    for (const char* text : {"45 ml London dry gin", "15 ml gentian liqueur", "22.5 ml lemon juice",
                             "20 ml simple syrup", "2 dashes orange bitters", "10 ml peated Scotch whisky"})
        for (const auto& line : readEntry(QString::fromLatin1(text), book.readOptions(), book.larder()).lines)
            spec.lines.push_back(line);
    spec.method = exchange::readMethod("Shake 12 s with wet cubes, strain.");
    spec.glass = "Low tumbler, over one 45 mm cube.";
    return spec;
}

double at(const std::vector<double>& sorted, double share) {
    return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
}

void measure(MainWindow& window, const char* with) {
    auto& draft = *window.desk().draft();
    window.bench().sheet().table().editCell(2, SpecModel::Amount);
    std::vector<double> times;
    std::vector<double> busy;
    const auto key = [&](int code, QChar text) {
        auto* to = QApplication::focusWidget();
        const double cpu = cpuMs();
        QElapsedTimer timer;
        timer.start();
        QKeyEvent down(QEvent::KeyPress, code, Qt::NoModifier, QString(text));
        QApplication::sendEvent(to, &down);
        QKeyEvent up(QEvent::KeyRelease, code, Qt::NoModifier, QString(text));
        QApplication::sendEvent(to, &up);
        // Layout and paint are posted; this runs them to the end.
        QApplication::sendPostedEvents();
        QApplication::processEvents();
        times.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
        busy.push_back(cpuMs() - cpu);
    };
    const int before = draft.evaluations();
    for (int round = 0; round < kRounds; ++round) {
        key(Qt::Key_2, QLatin1Char('2'));
        key(Qt::Key_Backspace, QChar());
        key(Qt::Key_5 - round % 5, QLatin1Char(static_cast<char>('5' - round % 5)));
        key(Qt::Key_Backspace, QChar());
        key(Qt::Key_Up, QChar());
        key(Qt::Key_Down, QChar());
        window.bench().sheet().table().openEditor();
    }
    std::sort(times.begin(), times.end());
    std::sort(busy.begin(), busy.end());
    std::printf("key to end of paint, 1440x900, %s, %zu keys, %d evaluations\n", with, times.size(),
                draft.evaluations() - before);
    std::printf("  by the clock      p50 %.2f ms, p90 %.2f ms, p99 %.2f ms, worst %.2f ms\n", at(times, 0.5),
                at(times, 0.9), at(times, 0.99), times.back());
    std::printf("  processor time    p50 %.2f ms, p90 %.2f ms, p99 %.2f ms, worst %.2f ms (what an idle "
                "machine needs)\n",
                at(busy, 0.5), at(busy, 0.9), at(busy, 0.99), busy.back());
}

} // namespace

int main(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QApplication application(argc, argv);
    application.setApplicationName(QStringLiteral("stillroom-bench"));
    Theme::current().install();
    const QTemporaryDir dir;
    MainWindow window;
    window.resize(1440, 900);
    // A book given on the command line, else a small one of its own.
    const QString path =
        argc > 1 ? QString::fromLocal8Bit(argv[1]) : dir.filePath(QStringLiteral("b.stillroom"));
    const bool opened = argc > 1 ? window.desk().openBook(path) : window.desk().createBook(path, {});
    if (!opened || !window.desk().newDrink(history::DrinkForm::Drink, QStringLiteral("Ox Skerry"),
                                           sour(*window.desk().book()))) {
        std::fprintf(stderr, "the book could not be opened\n");
        return 1;
    }
    auto& draft = *window.desk().draft();
    for (const char* reason : {"the idea", "less tonic", "smoke first"}) {
        draft.keep(QString::fromLatin1(reason));
        auto next = draft.spec();
        next.lines[0].poured.amount =
            quantity::Amount::exact(next.lines[0].poured.amount.low.plus(1).value_or(45));
        draft.apply(next, QStringLiteral("gin"));
    }
    window.show();
    QApplication::setActiveWindow(&window);
    QTest::qWait(200);
    measure(window, "drawings open");
    // What follows the drink beside the grid is computed while it is open.
    auto& gauges = window.bench().gauges();
    gauges.showMore();
    measure(window, "further readings open");
    gauges.showWorking();
    measure(window, "a working open");
    gauges.showHeld();
    measure(window, "the held curve open");
    return 0;
}
