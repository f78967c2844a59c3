#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/preparation/step_form.h"
#include "ui/panels/preparation/step_pane.h"
#include "ui/plots/step_bars.h"

#include <QAbstractSpinBox>
#include <QComboBox>
#include <QScrollArea>
#include <QScrollBar>
#include <QSpinBox>
#include <QVBoxLayout>
#include <QWheelEvent>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

namespace {

// One notch towards the person, as the window system sends it.
bool turnWheel(QWidget& over) {
    const QPointF at(over.rect().center());
    QWheelEvent event(at, over.mapToGlobal(at), QPoint(), QPoint(0, -120), Qt::NoButton, Qt::NoModifier,
                      Qt::NoScrollPhase, false);
    QApplication::sendEvent(&over, &event);
    return event.isAccepted();
}

} // namespace

TEST_CASE("The wheel scrolls the preparation page and leaves the step under it alone", "[ui][wheel]") {
    Desktop desktop;
    desktop.window.resize(1024, 700);
    desktop.trigger(Act::NewPreparation);
    type(u"Heather syrup"_s);
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    desktop.write({u"500 g white sugar"_s, u"500 g water"_s, u"5 g cinnamon stick"_s});
    press(Qt::Key_Escape);
    auto& pane = desktop.window.bench().sheet().steps();
    pane.bars().setFocus();
    press(Qt::Key_Return, Qt::ControlModifier);
    press(Qt::Key_Escape);
    REQUIRE(desktop.draft().spec().steps.size() == 1);
    const auto before = desktop.draft().spec();
    auto& kind = pane.form().kind();
    REQUIRE(kind.isVisible());
    QApplication::processEvents();
    auto* page = [&]() -> QAbstractScrollArea* {
        for (QWidget* each = kind.parentWidget(); each != nullptr; each = each->parentWidget())
            if (auto* area = qobject_cast<QAbstractScrollArea*>(each))
                if (area->verticalScrollBar()->maximum() > 0) return area;
        return nullptr;
    }();
    REQUIRE(page != nullptr);
    page->verticalScrollBar()->setValue(0);
    // The list leaves the wheel to the page, which scrolls when the event comes from a real wheel.
    const bool taken = turnWheel(kind);
    CHECK(desktop.draft().spec() == before);
    CHECK_FALSE(kind.hasFocus());
    CHECK((!taken || page->verticalScrollBar()->value() > 0));
    kind.setFocus(); // in hand it is the page that scrolls, too
    turnWheel(kind);
    CHECK(desktop.draft().spec() == before);
    press(Qt::Key_Down); // keys still choose
    CHECK(desktop.draft().spec() != before);
}

TEST_CASE("No list or number box of any page turns under the wheel", "[ui][wheel]") {
    Desktop desktop;
    desktop.newDrink(u"Ox Skerry"_s);
    desktop.write({u"45 ml London dry gin"_s, u"20 ml lemon juice"_s});
    press(Qt::Key_Escape);
    int turned = 0;
    for (const Act act : {Act::Larder, Act::BringToTarget, Act::Search, Act::Panels, Act::Conversions}) {
        desktop.trigger(act);
        QApplication::processEvents();
        for (auto* box : desktop.window.findChildren<QComboBox*>()) {
            if (!box->isVisible() || box->count() < 2) continue;
            const int before = box->currentIndex();
            turnWheel(*box);
            INFO(box->accessibleName().toStdString());
            CHECK(box->currentIndex() == before);
            CHECK(box->focusPolicy() != Qt::WheelFocus);
            ++turned;
        }
    }
    CHECK(turned >= 2);

    QScrollArea area;
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    auto* number = new QSpinBox;
    column->addWidget(number);
    column->addSpacing(2000);
    area.setWidget(inside);
    area.setWidgetResizable(true);
    area.show();
    QApplication::processEvents();
    REQUIRE(area.verticalScrollBar()->maximum() > 0);
    const bool taken = turnWheel(*number);
    CHECK(number->value() == 0);
    CHECK((!taken || area.verticalScrollBar()->value() > 0));
}
