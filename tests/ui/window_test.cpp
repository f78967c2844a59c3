#include "tests/support/catch.h"
#include "ui/main_window.h"

#include <QFontMetrics>

using namespace stillroom::ui;

TEST_CASE("There are letters to draw with", "[ui]") {
    const MainWindow window;
    CHECK(QFontMetrics(window.font()).inFont(QLatin1Char('A')));
}
