#include "core/tasting/panel_report.h"
#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/panels/blind/answer_model.h"
#include "ui/panels/blind/answer_table.h"
#include "ui/panels/blind/blind_page.h"
#include "ui/panels/blind/design_form.h"
#include "ui/panels/blind/paper_dialog.h"

#include <QAbstractButton>
#include <QButtonGroup>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMessageBox>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSpinBox>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

QString utf8(const char* text) {
    return QString::fromUtf8(text);
}

bool holds(const QString& text, const char* part) {
    return text.contains(utf8(part));
}

// Everything a person could read on a page, be it shown, read out or in a tip.
QString wordsOn(const QWidget& page) {
    QStringList words;
    QList<const QWidget*> all{&page};
    for (const auto* child : page.findChildren<QWidget*>())
        all << child;
    for (const auto* widget : all) {
        words << widget->accessibleName() << widget->accessibleDescription() << widget->toolTip()
              << widget->windowTitle();
        if (const auto* label = qobject_cast<const QLabel*>(widget)) words << label->text();
        if (const auto* button = qobject_cast<const QAbstractButton*>(widget)) words << button->text();
        if (const auto* field = qobject_cast<const QLineEdit*>(widget))
            words << field->text() << field->placeholderText();
        if (const auto* view = qobject_cast<const QAbstractItemView*>(widget); view && view->model()) {
            const auto* model = view->model();
            for (int row = 0; row < model->rowCount(); ++row)
                for (int column = 0; column < model->columnCount(); ++column)
                    for (const int role :
                         {int(Qt::DisplayRole), int(Qt::ToolTipRole), int(Qt::AccessibleTextRole),
                          int(Qt::AccessibleDescriptionRole), int(AnswerModel::ProductRole)})
                        words << model->index(row, column).data(role).toString();
            for (int column = 0; column < model->columnCount(); ++column)
                words << model->headerData(column, Qt::Horizontal).toString();
        }
    }
    return words.join(QLatin1Char('\n'));
}

// A drink with two kept revisions, and the page of panels over it.
struct Room : Desktop {
    Room() {
        newDrink(QStringLiteral("Ox Skerry"));
        write({QStringLiteral("45 ml London dry gin"), QStringLiteral("22.5 ml lemon juice")});
        keep(QStringLiteral("first"));
        draft().apply(changed(), QStringLiteral("lemon"));
        keep(QStringLiteral("less lemon"));
    }
    spec::Spec changed() {
        auto spec = draft().spec();
        spec.lines[1].poured = ml(20);
        return spec;
    }
    void openPage() {
        press(Qt::Key_E, Qt::ControlModifier | Qt::ShiftModifier);
        page = qobject_cast<BlindPage*>(window.page());
        REQUIRE(page != nullptr);
    }
    void click(QPushButton* button) {
        REQUIRE(button != nullptr);
        REQUIRE(button->isEnabled());
        QTest::mouseClick(button, Qt::LeftButton);
        QApplication::processEvents();
    }
    void addTasters(int count) {
        auto* form = page->form();
        form->person().setFocus();
        for (int i = 1; i <= count; ++i) {
            type(QStringLiteral("Taster %1").arg(i));
            press(Qt::Key_Return);
        }
    }
    void choose(tasting::PanelKind kind) {
        auto* radio = page->form()->kinds().button(static_cast<int>(kind));
        QTest::mouseClick(radio, Qt::LeftButton, {}, QPoint(8, radio->height() / 2));
        REQUIRE(radio->isChecked());
    }
    // With a seed, so that every run sees the same cups.
    void deal() {
        page->form()->seed().setFocus();
        page->form()->seed().selectAll();
        type(QStringLiteral("11"));
        press(Qt::Key_Return, Qt::ControlModifier);
        QApplication::processEvents();
        REQUIRE(page->view() != nullptr);
    }
    void ask(BlindAct act) { click(page->view()->button(act)); }
    // The question on the window, answered by the button with these words.
    void answerBox(const char* words) {
        QApplication::processEvents();
        auto* box = page->findChild<QMessageBox*>();
        REQUIRE(box != nullptr);
        asked = box->text() + QLatin1Char(' ') + box->informativeText();
        for (auto* button : box->buttons())
            if (button->text().remove(QLatin1Char('&')) == utf8(words)) {
                QTest::mouseClick(button, Qt::LeftButton);
                REQUIRE(QTest::qWaitFor([this] { return page->findChild<QMessageBox*>() == nullptr; }));
                QApplication::setActiveWindow(&window);
                return;
            }
        FAIL(words);
    }
    tasting::Panel stored() {
        const auto panel = window.desk().book()->book().panel(page->view()->id());
        REQUIRE(panel);
        return *panel;
    }
    AnswerTable& table() {
        REQUIRE(page->view()->answers() != nullptr);
        return *page->view()->answers();
    }
    BlindPage* page = nullptr;
    QString asked;
};

// 1, 2, 3: where the odd cup stands on this taster's sheet.
Qt::Key oddPlace(const tasting::Panel& panel, std::size_t taster, bool odd) {
    const auto& cups = panel.servings[taster].cups;
    for (std::size_t at = 0; at < cups.size(); ++at) {
        int same = 0;
        for (const auto& cup : cups)
            same += cup.product == cups[at].product ? 1 : 0;
        if ((same == 1) == odd) return static_cast<Qt::Key>(Qt::Key_1 + static_cast<int>(at));
    }
    return Qt::Key_0;
}

} // namespace

TEST_CASE("an empty book of sessions says what a panel is and how to begin", "[ui][blind]") {
    Room room;
    room.openPage();
    CHECK(room.page->list().count() == 0);
    CHECK(holds(wordsOn(*room.page), "No session yet"));
    CHECK(holds(wordsOn(*room.page), "New session"));
    press(Qt::Key_Escape);
    CHECK(room.window.page() == nullptr);
}

TEST_CASE("what a panel can show is said before pouring and changes as one chooses", "[ui][blind]") {
    Room room;
    room.openPage();
    room.click(&room.page->newButton());
    auto* form = room.page->form();
    REQUIRE(form != nullptr);
    CHECK(form->products().count() == 2); // the two revisions of the drink in hand
    CHECK(form->products().item(1)->text() == QStringLiteral("Ox Skerry r2"));
    CHECK(holds(form->planWords(), "Tick who tastes, or add somebody."));
    CHECK_FALSE(form->dealButton().isEnabled());
    room.addTasters(5);
    room.choose(tasting::PanelKind::PairedPreference);
    CHECK(holds(form->planWords(), "5 tasters cannot show a preference at 5 %, two-sided"));
    room.addTasters(12); // the first five are there already
    CHECK(form->tasters().count() == 12);
    room.choose(tasting::PanelKind::Triangle);
    CHECK(holds(form->planWords(), "12 tasters: 8 right needed at 5 %."));
    CHECK(holds(form->planWords(), "80 % power only if about 60 % of people perceive it."));
    form->share().setFocus();
    form->share().selectAll();
    type(QStringLiteral("40"));
    CHECK(holds(form->planWords(), "If 40 % of people can tell, this panel shows it"));
    // Unticked with the space bar: eleven are left.
    form->tasters().setFocus();
    form->tasters().setCurrentRow(0);
    press(Qt::Key_Space);
    CHECK(holds(form->planWords(), "11 tasters: 7 right needed at 5 %."));
    // Leaving the page forgets nothing of the plan.
    press(Qt::Key_Escape);
    room.openPage();
    room.click(&room.page->newButton());
    CHECK(holds(room.page->form()->planWords(), "11 tasters: 7 right needed at 5 %."));
}

TEST_CASE("a triangle of twelve goes from plan to verdict by keyboard", "[ui][blind]") {
    Room room;
    room.openPage();
    room.click(&room.page->newButton());
    room.addTasters(12);
    room.deal();
    CHECK(holds(room.page->list().item(0)->text(), "planned for 12"));
    CHECK(holds(wordsOn(*room.page), "18 cups of Ox Skerry r1"));
    room.ask(BlindAct::Start);
    REQUIRE(room.page->view()->answers() != nullptr);
    const auto panel = room.stored();
    CHECK(panel.state == tasting::PanelState::Pouring);
    CHECK(room.table().hasFocus());
    for (std::size_t taster = 0; taster < 12; ++taster)
        press(oddPlace(panel, taster, taster < 8)); // chooses and goes on to the next taster
    CHECK(holds(room.page->list().item(0)->text(), "pouring, 12 of 12 in"));
    // A slip of the pen is put right as long as nothing is open.
    room.table().goTo(11);
    press(Qt::Key_Backspace);
    CHECK(holds(room.page->list().item(0)->text(), "pouring, 11 of 12 in"));
    press(oddPlace(panel, 11, false));
    room.ask(BlindAct::Close);
    room.answerBox("Open the codes");
    CHECK_FALSE(holds(room.asked, "stays missing"));
    const auto* verdict = room.page->findChild<QLabel*>(QStringLiteral("verdict"));
    REQUIRE(verdict != nullptr);
    CHECK(verdict->text() == QStringLiteral("They can tell them apart."));
    const QString words = wordsOn(*room.page);
    CHECK(holds(words, "8 of 12 found the odd one; 8 are needed at 5 %: a difference is shown."));
    CHECK(holds(words, "Chance alone would do as much in 1.9 % of such panels."));
    CHECK(holds(words,
                "From r1 to r2 one thing changed, lemon juice. If tasters tell them apart, it was that."));
    const auto& model = *room.table().model();
    CHECK(model.index(0, 4 + 1).data().toString() == QStringLiteral("right"));
    CHECK(model.index(11, 4 + 1).data().toString() == QStringLiteral("not right"));
    room.ask(BlindAct::CopyResult);
    const QString copied = QApplication::clipboard()->text();
    CHECK(holds(copied, "They can tell them apart."));
    CHECK(holds(copied, "Taster 1: chose "));
    // Nothing can be entered any more.
    room.table().goTo(0);
    room.table().setFocus();
    press(Qt::Key_Backspace);
    CHECK(room.stored().answers[0].chosen);
}

TEST_CASE("nothing reveals what is in a cup before the session is closed", "[ui][blind]") {
    Room room;
    room.openPage();
    room.click(&room.page->newButton());
    room.addTasters(6);
    room.deal();
    const auto codesOn = [&](const tasting::Panel& panel) {
        int found = 0;
        const QString words = wordsOn(*room.page);
        for (const auto& serving : panel.servings)
            for (const auto& cup : serving.cups)
                found += words.contains(QString::number(cup.code)) ? 1 : 0;
        return found;
    };
    // Planned: what is poured, and no code. Pouring: every code, and nothing that is poured.
    const auto panel = room.stored();
    CHECK(codesOn(panel) == 0);
    CHECK(holds(wordsOn(*room.page), "Ox Skerry"));
    room.ask(BlindAct::Start);
    CHECK(codesOn(panel) == 18);
    CHECK_FALSE(holds(wordsOn(*room.page), "Ox Skerry"));
    CHECK_FALSE(wordsOn(*room.page).contains(QRegularExpression(QStringLiteral("\\br[12]\\b"))));
    for (std::size_t taster = 0; taster < 6; ++taster)
        press(oddPlace(panel, taster, true));
    CHECK_FALSE(holds(wordsOn(*room.page), "Ox Skerry"));
    CHECK_FALSE(holds(wordsOn(*room.page), "right"));

    // The sheets name no drink; the key warns before it opens, and stays closed unless one insists.
    room.ask(BlindAct::Sheets);
    auto* sheets = room.page->findChild<PaperDialog*>();
    REQUIRE(sheets != nullptr);
    sheets->copyText();
    CHECK_FALSE(holds(QApplication::clipboard()->text(), "Ox Skerry"));
    CHECK(QApplication::clipboard()->text().contains(QString::number(panel.servings[0].cups[0].code)));
    CHECK(sheets->savePdf(room.dir.filePath(QStringLiteral("sheets.pdf"))));
    sheets->reject();
    REQUIRE(QTest::qWaitFor([&] { return room.page->findChild<PaperDialog*>() == nullptr; }));
    room.ask(BlindAct::Key);
    room.answerBox("Leave it closed");
    CHECK(holds(room.asked, "Whoever sees it is no longer blind"));
    CHECK(room.page->findChild<PaperDialog*>() == nullptr);
    room.ask(BlindAct::Key);
    room.answerBox("Show the key");
    auto* key = room.page->findChild<PaperDialog*>();
    REQUIRE(key != nullptr);
    key->copyText();
    CHECK(holds(QApplication::clipboard()->text(), "Ox Skerry r1"));
    key->reject();
}

TEST_CASE("a session closed with the window in the middle of it is found as it was", "[ui][blind]") {
    Room room;
    room.openPage();
    room.click(&room.page->newButton());
    room.addTasters(4);
    room.deal();
    room.ask(BlindAct::Start);
    const auto before = room.stored();
    press(Qt::Key_2);
    press(Qt::Key_3);
    CHECK(room.window.close());
    MainWindow again;
    again.show();
    QApplication::setActiveWindow(&again);
    REQUIRE(QTest::qWaitFor([&] { return again.isActiveWindow(); }));
    room.window.desk().closeBook();
    REQUIRE(again.desk().openBook(room.path()));
    again.actions().at(Act::Panels)->trigger();
    auto* page = qobject_cast<BlindPage*>(again.page());
    REQUIRE(page != nullptr);
    REQUIRE(page->view() != nullptr);
    const auto& now = page->view()->session().panel;
    CHECK(now.servings == before.servings);
    CHECK(now.answers[0].chosen == before.servings[0].cups[1].code);
    CHECK(now.answers[1].chosen == before.servings[1].cups[2].code);
    CHECK(now.answers[2].isEmpty());
    CHECK(holds(page->list().item(0)->text(), "pouring, 2 of 4 in"));
    // Entry goes on where the first answer is missing.
    page->view()->answers()->setFocus();
    CHECK(page->view()->answers()->currentIndex().row() == 2);
}

TEST_CASE("a ranking of four with ties goes from three drinks to its verdict", "[ui][blind]") {
    Room room;
    for (const char* name : {"Quill Point", "Maiden Ledge"}) {
        room.newDrink(utf8(name));
        room.write({QStringLiteral("50 ml London dry gin"), QStringLiteral("10 ml honey syrup")});
        room.keep(QStringLiteral("first"));
    }
    room.openPage();
    room.click(&room.page->newButton());
    auto* form = room.page->form();
    room.choose(tasting::PanelKind::Ranking);
    CHECK(form->products().count() == 1); // of the drink in hand
    // Two more by their drinks' names: the first has two revisions, which are asked for next.
    const auto pick = [&](const char* part) {
        auto* dialog = room.page->findChild<PickDialog*>();
        REQUIRE(dialog != nullptr);
        QApplication::setActiveWindow(dialog);
        dialog->filter().setFocus();
        QTest::keyClicks(&dialog->filter(), utf8(part));
        QTest::keyClick(&dialog->filter(), Qt::Key_Return);
        QCoreApplication::sendPostedEvents(dialog, QEvent::DeferredDelete);
        QApplication::processEvents();
        QApplication::setActiveWindow(&room.window);
    };
    form->products().setFocus();
    press(Qt::Key_Insert);
    pick("quill");
    CHECK(form->products().count() == 2);
    form->products().setFocus();
    press(Qt::Key_Insert);
    pick("ox");
    pick("r1");
    form->products().setFocus();
    press(Qt::Key_Insert);
    pick("ox"); // one is left of it
    QStringList poured;
    for (int row = 0; row < form->products().count(); ++row)
        poured << form->products().item(row)->text();
    CHECK(poured.join(QLatin1Char('|')).toStdString() ==
          "Maiden Ledge r1|Quill Point r1|Ox Skerry r1|Ox Skerry r2");
    room.addTasters(6);
    REQUIRE(QTest::qWaitFor([&] { return holds(form->planWords(), "6 tasters ranking 4 products"); }));
    room.deal();
    room.ask(BlindAct::Start);
    const auto panel = room.stored();
    // First Ox Skerry r2, then Quill Point and Maiden Ledge alike, last Ox Skerry r1.
    const std::vector<int> ranks{2, 2, 4, 1};
    for (const auto& serving : panel.servings)
        for (const auto& cup : serving.cups)
            press(static_cast<Qt::Key>(Qt::Key_0 + ranks[cup.product]));
    CHECK(holds(room.page->list().item(0)->text(), "pouring, 6 of 6 in"));
    // A rank that is not there is refused, and what stood there stays.
    room.table().goTo(5, 4);
    const auto before = room.stored().answers[5];
    press(Qt::Key_9);
    CHECK(room.stored().answers[5] == before);
    room.ask(BlindAct::Close);
    room.answerBox("Open the codes");
    const QString words = wordsOn(*room.page);
    CHECK(holds(words, "Their order is more than chance."));
    CHECK(holds(words, "Rank sums of 6 rankings, lowest first: Ox Skerry r2 6, Maiden Ledge r1 15, Quill "
                       "Point r1 15, Ox Skerry r1 24."));
    // F = 12 / (6 · 4 · 5) · (36 + 225 + 225 + 576) − 3 · 6 · 5 = 16.2, divided for the tied pair in each
    // row: 16.2 / (1 − 6 · (8 − 2) / (6 · (64 − 4))) = 18.
    CHECK(holds(words, "The products differ at 5 %: F = 18.00"));
    CHECK(holds(words, "Quill Point r1"));
}

TEST_CASE("a panel is closed with answers missing and says so", "[ui][blind]") {
    Room room;
    room.openPage();
    room.click(&room.page->newButton());
    room.addTasters(6);
    room.choose(tasting::PanelKind::PairedPreference);
    room.deal();
    room.ask(BlindAct::Start);
    const auto panel = room.stored();
    for (std::size_t taster = 0; taster < 4; ++taster) {
        const auto& cups = panel.servings[taster].cups;
        press(cups[0].product == 1 ? Qt::Key_1 : Qt::Key_2);
    }
    CHECK(room.table().model()->index(4, 4).data().toString() == QStringLiteral("missing"));
    room.ask(BlindAct::Close);
    room.answerBox("Go on pouring"); // nothing is closed by a slip
    CHECK(holds(room.asked, "Taster 5, Taster 6. What is missing stays missing"));
    CHECK(room.stored().state == tasting::PanelState::Pouring);
    room.ask(BlindAct::Close);
    room.answerBox("Open the codes");
    const QString words = wordsOn(*room.page);
    CHECK(holds(words, "Too few answers to show a preference."));
    CHECK(holds(words, "4 of 4 preferred Ox Skerry r2; 4 answers cannot show a preference at 5 %"));
    CHECK(holds(words, "2 of 6 tasters gave no answer: left out, not guessed."));
    CHECK(holds(words, "That is not the same as no difference."));
}

TEST_CASE("scores of liking and a note are typed and read with their intervals", "[ui][blind]") {
    Room room;
    room.openPage();
    room.click(&room.page->newButton());
    room.addTasters(4);
    room.choose(tasting::PanelKind::Hedonic);
    room.deal();
    room.ask(BlindAct::Start);
    const auto panel = room.stored();
    const std::vector<std::vector<int>> scores{{3, 8}, {2, 8}, {4, 7}, {3, 9}};
    for (std::size_t taster = 0; taster < 4; ++taster)
        for (const auto& cup : panel.servings[taster].cups)
            press(static_cast<Qt::Key>(Qt::Key_0 + scores[taster][cup.product]));
    room.table().goTo(1, 3);
    type(QStringLiteral("t")); // opens the note
    REQUIRE(qobject_cast<QLineEdit*>(QApplication::focusWidget()) != nullptr);
    type(QStringLiteral("oo long"));
    press(Qt::Key_Return);
    QApplication::processEvents();
    CHECK(room.stored().answers[1].note == "too long");
    CHECK(room.table().hasFocus());
    room.ask(BlindAct::Close);
    room.answerBox("Open the codes");
    const QString words = wordsOn(*room.page);
    CHECK(holds(words, "They like Ox Skerry r2 more."));
    // 5, 6, 3 and 6 more: 5 ± 3.182 · √2 / √4 with Student's t of three degrees.
    INFO(words.toStdString());
    CHECK(holds(words, "Ox Skerry r2 over Ox Skerry r1 by 5.0 (95 % certain between 2.7 and 7.3)"));
    CHECK(holds(words, "too long"));
}

TEST_CASE("a draft that was never kept is kept first and then poured", "[ui][blind]") {
    Room room;
    auto spec = room.draft().spec();
    spec.lines[0].poured = ml(50);
    room.draft().apply(spec, QStringLiteral("more gin"));
    room.openPage();
    room.click(&room.page->newButton());
    auto* form = room.page->form();
    form->products().setFocus();
    press(Qt::Key_Delete);
    CHECK(form->products().count() == 1);
    press(Qt::Key_Insert);
    auto* pick = room.page->findChild<PickDialog*>();
    REQUIRE(pick != nullptr);
    CHECK(holds(pick->list().item(0)->text(), "not kept yet: it is kept first"));
    QApplication::setActiveWindow(pick);
    QTest::keyClick(&pick->filter(), Qt::Key_Return);
    QApplication::processEvents();
    auto* keep = room.page->findChild<KeepDialog*>();
    REQUIRE(keep != nullptr);
    QApplication::setActiveWindow(keep);
    QTest::keyClick(&keep->reason(), Qt::Key_Return);
    QApplication::processEvents();
    QApplication::setActiveWindow(&room.window);
    REQUIRE(form->products().count() == 2);
    CHECK(form->products().item(1)->text() == QStringLiteral("Ox Skerry r3"));
    CHECK(room.draft().base()->number == 3);
}

TEST_CASE("a session is renamed and binned and taken back", "[ui][blind]") {
    Room room;
    room.openPage();
    room.click(&room.page->newButton());
    room.addTasters(3);
    room.deal();
    auto& name = room.page->view()->name();
    name.setFocus();
    name.selectAll();
    type(QStringLiteral("Before the menu"));
    press(Qt::Key_Return);
    QApplication::processEvents();
    CHECK(holds(room.page->list().item(0)->text(), "Before the menu, Triangle"));
    room.ask(BlindAct::Bin);
    QApplication::processEvents();
    CHECK(holds(room.page->list().item(0)->text(), "in the bin"));
    CHECK_FALSE(room.page->view()->button(BlindAct::Start)->isEnabled());
    room.ask(BlindAct::Bin);
    QApplication::processEvents();
    CHECK(holds(room.page->list().item(0)->text(), "planned for 3"));
}
