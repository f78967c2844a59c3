#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/dialogs/paste_page.h"
#include "ui/text/words.h"
#include "ui/widgets/answer_button.h"

#include <QClipboard>
#include <QLabel>
#include <QPlainTextEdit>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

PastePage& paste(Desktop& desktop, const QString& text) {
    QApplication::clipboard()->setText(text);
    press(Qt::Key_V, Qt::ControlModifier | Qt::ShiftModifier);
    auto* page = qobject_cast<PastePage*>(desktop.window.page());
    REQUIRE(page != nullptr);
    return *page;
}

bool says(const QWidget& page, const QString& words) {
    for (const auto* label : page.findChildren<QLabel*>())
        if (label->text().contains(words)) return true;
    return false;
}

QStringList answers(const QWidget& page) {
    QStringList texts;
    for (const auto* button : page.findChildren<AnswerButton*>())
        texts << button->key() + QLatin1Char('|') + button->text();
    return texts;
}

} // namespace

TEST_CASE("A refused line says why is counted apart and stands in the notes", "[ui][paste]") {
    Desktop desktop;
    auto& page = paste(desktop, QStringLiteral("Grey Tolland\n\n45 ml navy rum\n-2 oz gin\n"));
    CHECK(says(page, QStringLiteral("1 refused")));
    CHECK(says(page, QStringLiteral("2 read"))); // the name and the rum
    bool told = false;
    for (const auto* row : page.findChildren<QWidget*>())
        told = told || row->accessibleDescription().contains(QStringLiteral("below zero"));
    CHECK(told);
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(desktop.window.desk().draft() != nullptr);
    CHECK(desktop.draft().spec().lines.size() == 1);
    CHECK(desktop.draft().now().words.notes == "Not read: -2 oz gin");
    // Pasted again over the same drink, what stood in its notes stays.
    paste(desktop, QStringLiteral("Grey Tolland\n\n50 ml navy rum\n1/0 oz gin\n"));
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(desktop.draft().now().words.notes == "Not read: -2 oz gin\nNot read: 1/0 oz gin");
}

TEST_CASE("Lines that ran together are offered by name and answered by key", "[ui][paste]") {
    Desktop desktop;
    auto& page = paste(desktop, QStringLiteral("Hollow Bell\n\n2 oz gin, 1 oz lemon juice\n"));
    CHECK(answers(page) == QStringList{QStringLiteral("1|2 floz gin  +  1 floz lemon juice")});
    press(Qt::Key_1);
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(desktop.window.desk().draft() != nullptr);
    CHECK(desktop.draft().spec().lines.size() == 2);
}

TEST_CASE("A point is not asked about as a comma and every answer has its measure", "[ui][paste]") {
    Desktop desktop;
    auto& page = paste(desktop, QStringLiteral("Quill Point\n\n1.500 ml gin\n"));
    CHECK(answers(page) == QStringList{QStringLiteral("1|1.5 ml gin"), QStringLiteral("2|1500 ml gin")});
    const exchange::Doubt doubt{exchange::DoubtCode::CommaAmbiguous, exchange::DoubtWeight::Ask, "3/2"};
    CHECK(doubtQuestion(doubt, QStringLiteral("1.500 ml gin")) ==
          QString::fromUtf8("“1.500”: is the point a decimal mark?"));
    CHECK(doubtQuestion(doubt, QStringLiteral("1,500 ml gin")) ==
          QString::fromUtf8("“1,500”: is the comma a decimal mark?"));
}

TEST_CASE("With an empty clipboard a whole recipe is written and read as it grows", "[ui][paste]") {
    Desktop desktop;
    auto& page = paste(desktop, QString());
    auto* field = page.findChild<QPlainTextEdit*>();
    REQUIRE(field != nullptr);
    REQUIRE(QApplication::focusWidget() == field);
    type(QStringLiteral("Ox Skerry"));
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    type(QStringLiteral("45 ml London dry gin"));
    press(Qt::Key_Return);
    CHECK(page.reading().spec().lines.size() == 1);
    type(QStringLiteral("6/8 mint leaves"));
    CHECK(page.openQuestions() == 1);
    CHECK_FALSE(page.acceptButton().isEnabled());
    press(Qt::Key_Escape); // out of the field, to the questions
    REQUIRE(desktop.window.page() == &page);
    press(Qt::Key_1);
    CHECK(QTest::qWaitFor([&] { return page.openQuestions() == 0; }));
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(desktop.window.desk().draft() != nullptr);
    CHECK(desktop.draft().now().words.name == "Ox Skerry");
    CHECK(desktop.draft().spec().lines.size() == 2);
}
