// Typing into the search page of the real window, each key to the end of its painting:
// stillroom_search_bench WORKBOOK. Works on a copy, since searching reads ahead into the file. Prints what
// the clock and this thread's processor say; measures, asserts nothing.
#include "core/store/error.h"
#include "tests/bench/big_book.h"
#include "ui/main_window.h"
#include "ui/panels/search/results_list.h"
#include "ui/panels/search/results_model.h"
#include "ui/panels/search/search_page.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QtTest/QTest>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <vector>

using namespace stillroom;
using namespace stillroom::ui;

namespace {

double cpuMs() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

struct Key {
    double clock = 0, work = 0;
    double painting = 0; // of the work
    QString text;        // in the field after it
};

void print(const char* what, std::vector<Key> keys) {
    if (keys.empty()) return;
    const auto at = [&](double Key::*figure, std::size_t percent) {
        std::sort(keys.begin(), keys.end(),
                  [figure](const Key& a, const Key& b) { return a.*figure < b.*figure; });
        return keys[std::min(keys.size() - 1, keys.size() * percent / 100)].*figure;
    };
    std::printf("%-30s %4zu keys   clock p50 %6.2f p99 %6.2f worst %6.2f ms", what, keys.size(),
                at(&Key::clock, 50), at(&Key::clock, 99), at(&Key::clock, 100));
    std::printf("   work p50 %6.2f p99 %6.2f worst %6.2f ms, painting p50 %6.2f p99 %6.2f\n",
                at(&Key::work, 50), at(&Key::work, 99), at(&Key::work, 100), at(&Key::painting, 50),
                at(&Key::painting, 99));
    at(&Key::work, 100);
    for (std::size_t i = keys.size() - std::min<std::size_t>(3, keys.size()); i < keys.size(); ++i)
        std::printf("      %6.2f ms of work at \"%s\"\n", keys[i].work, qPrintable(keys[i].text));
}

// What is posted and due until the picture stands, and nothing that waits for a timer.
void paint(QWidget& window) {
    QApplication::sendPostedEvents();
    QApplication::sendPostedEvents(&window, QEvent::UpdateRequest);
    QApplication::sendPostedEvents();
}

class Typing {
  public:
    Typing(MainWindow& window, SearchPage& page) : m_window(window), m_page(page) {}

    std::vector<Key> type(const std::vector<std::string>& requests) {
        std::vector<Key> keys;
        for (const std::string& request : requests) {
            for (const QChar letter : fromCore(request))
                keys.push_back(measured([&] { QTest::keyClick(&m_page.words(), letter.toLatin1()); }));
            for (int left = static_cast<int>(request.size()); left > 0; --left)
                m_erased.push_back(measured([&] { QTest::keyClick(&m_page.words(), Qt::Key_Backspace); }));
        }
        return keys;
    }
    const std::vector<Key>& erased() const { return m_erased; }

  private:
    template <class Press>
    Key measured(Press&& press) {
        QApplication::processEvents(); // what the key before left to do is not this key's
        QElapsedTimer timer;
        const double before = cpuMs();
        timer.start();
        press();
        const double pressed = cpuMs();
        paint(m_window);
        const double after = cpuMs();
        return {static_cast<double>(timer.nsecsElapsed()) / 1e6, after - before, after - pressed,
                m_page.words().text()};
    }

    MainWindow& m_window;
    SearchPage& m_page;
    std::vector<Key> m_erased;
};

int run(const QString& path) {
    WindowStart start;
    start.path = toCore(path);
    MainWindow window(start);
    window.resize(1440, 900);
    window.show();
    window.begin();
    QApplication::setActiveWindow(&window);
    QApplication::processEvents();
    QTest::keyClick(&window, Qt::Key_F, Qt::ControlModifier);
    auto* page = qobject_cast<SearchPage*>(window.page());
    if (page == nullptr) {
        std::fprintf(stderr, "the search page did not open\n");
        return 1;
    }
    page->words().setFocus();
    Typing typing(window, *page);
    const std::vector<std::string> plain{"gin",
                                         "lemon juice",
                                         "light 250",
                                         "shake hard",
                                         "menu 12",
                                         "clear as the first",
                                         "syrup comes late",
                                         "the",
                                         "rum",
                                         "coupe",
                                         "one step drier",
                                         "e"};
    std::vector<std::string> words = plain;
    for (const std::size_t index : {0U, 3U, 40U, 300U, 1500U, 6000U, 12000U, 19000U})
        words.push_back(bench::benchWord(index) + ' ' + bench::benchWord(index / 2));
    std::vector<std::string> slips{"lemmon", "gni and tonic", "shkae hard", "sirup comes", "xylophone"};
    for (const std::size_t index : {900U, 1500U, 6000U, 12000U, 15000U}) {
        std::string word = bench::benchWord(index);
        std::swap(word[1], word[2]);
        slips.push_back(word);
    }
    print("at once, nothing read ahead", typing.type({"lemon"}));
    while (window.desk().book()->book().catchUpSearch(50) > 0)
        continue;
    QApplication::processEvents();
    print("words, names, phrases", typing.type(words));
    print("misspelt", typing.type(slips));
    print("taking letters back", typing.erased());
    std::vector<Key> all = typing.type(words);
    const auto more = typing.type(slips);
    all.insert(all.end(), more.begin(), more.end());
    print("every key, a second time", all);
    return 0;
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: stillroom_search_bench WORKBOOK\n");
        return 2;
    }
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QStandardPaths::setTestModeEnabled(true);
    QApplication application(argc, argv);
    application.setApplicationName(QStringLiteral("stillroom-bench"));
    Theme::current().install();
    const QTemporaryDir dir;
    const QString copy = dir.filePath(QStringLiteral("book.stillroom"));
    try {
        std::filesystem::copy_file(argv[1], copy.toStdString());
        std::filesystem::permissions(copy.toStdString(), std::filesystem::perms::owner_write,
                                     std::filesystem::perm_options::add);
        return run(copy);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
