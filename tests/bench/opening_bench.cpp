// From nothing to a window one can type into, on a workbook, against an empty window of the toolkit:
// stillroom_opening_bench WORKBOOK. Prints each part; measures, asserts nothing.
#include "core/store/bench_rules.h"
#include "core/store/error.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QStandardPaths>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <vector>

using namespace stillroom;
using namespace stillroom::ui;

namespace {

constexpr int kRounds = 9;

// What this thread has worked, whatever else the machine was doing.
class Work {
  public:
    void start() {
        m_clock.start();
        m_cpu = cpuMs();
    }
    double clockMs() const { return static_cast<double>(m_clock.nsecsElapsed()) / 1e6; }
    double workMs() const { return cpuMs() - m_cpu; }

  private:
    static double cpuMs() {
        timespec now{};
        clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
        return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
    }
    QElapsedTimer m_clock;
    double m_cpu = 0;
};

void settle() {
    QApplication::sendPostedEvents();
    QApplication::processEvents();
}

template <class Round>
void print(const char* what, Round&& round) {
    std::vector<double> clock, work;
    for (int i = 0; i < kRounds; ++i) {
        Work timer;
        timer.start();
        round();
        clock.push_back(timer.clockMs());
        work.push_back(timer.workMs());
    }
    std::printf("%-40s first %7.1f ms (work %7.1f)", what, clock.front(), work.front());
    std::sort(clock.begin(), clock.end());
    std::sort(work.begin(), work.end());
    std::printf("   median %7.1f ms (work %7.1f)   worst %7.1f ms\n", clock[kRounds / 2], work[kRounds / 2],
                clock.back());
}

// The parts of opening, one after the other, without a window.
void printParts(const std::string& path) {
    const base::SystemClock clock;
    std::unique_ptr<store::Workbook> book;
    const auto part = [&](const char* what, auto&& work) {
        Work timer;
        timer.start();
        work();
        std::printf("  %-38s %7.1f ms (work %7.1f)\n", what, timer.clockMs(), timer.workMs());
    };
    part("opening the file", [&] { book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock); });
    part("settings", [&] { book->settings(); });
    larder::Larder larder;
    part("larder", [&] { larder = book->larder(); });
    part("the bench's rules", [&] { store::benchRules(*book, larder); });
    std::vector<store::DrinkSummary> shelf;
    part("the shelf", [&] { shelf = book->summaries(); });
    if (shelf.empty()) return;
    part("revisions of the first drink", [&] { book->revisions(shelf.front().id); });
    part("drafts of it", [&] { book->drafts(shelf.front().id); });
    part("closing", [&] { book.reset(); });
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: stillroom_opening_bench WORKBOOK\n");
        return 2;
    }
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QApplication application(argc, argv);
    application.setApplicationName(QStringLiteral("stillroom-bench"));
    Theme::current().install();
    const QString path = QString::fromLocal8Bit(argv[1]);
    try {
        printParts(toCore(path));
    } catch (const store::StoreError& error) {
        std::fprintf(stderr, "%s\nNothing was measured.\n", error.what());
        return 1;
    }
    print("an empty window", [&] {
        QMainWindow window;
        window.resize(1440, 900);
        window.show();
        settle();
    });
    print("the window without a book", [&] {
        MainWindow window;
        window.show();
        settle();
    });
    print("the window with the workbook, usable", [&] {
        WindowStart start;
        start.path = toCore(path);
        MainWindow window(start);
        window.show();
        window.begin();
        settle();
        if (window.desk().draft() == nullptr) std::printf("nothing was opened\n");
    });
    return 0;
}
