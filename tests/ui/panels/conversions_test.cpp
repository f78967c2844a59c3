#include "tests/support/catch.h"
#include "tests/ui/support.h"
#include "ui/main_window.h"
#include "ui/panels/conversion_form.h"
#include "ui/panels/conversions_desk.h"
#include "ui/theme/theme.h"

#include <QAction>
#include <QClipboard>
#include <QComboBox>
#include <QDir>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

// The window without a book, and the desk opened by its key.
struct OpenDesk {
    OpenDesk() {
        window.resize(1200, 800);
        window.show();
        QApplication::setActiveWindow(&window);
        REQUIRE(QTest::qWaitFor([this] { return window.isActiveWindow(); }));
        window.setFocus();
        press(Qt::Key_K, Qt::ControlModifier);
        REQUIRE(window.page() != nullptr);
        desk = qobject_cast<ConversionsDesk*>(window.page());
        REQUIRE(desk != nullptr);
    }
    QLineEdit& field(std::string_view key) {
        auto* edit = qobject_cast<QLineEdit*>(desk->form().field(key));
        REQUIRE(edit != nullptr);
        return *edit;
    }
    MainWindow window;
    ConversionsDesk* desk = nullptr;
};

} // namespace

TEST_CASE("a conversion is found and filled in and left by keys alone", "[ui][conversions]") {
    OpenDesk open;
    CHECK(QApplication::focusWidget() == &open.desk->filter());
    type(QStringLiteral("hydrometer"));
    CHECK(open.desk->chosen().id == "hydrometer");
    press(Qt::Key_Down); // and the one below it: sugar and the hydrometer
    CHECK(open.desk->chosen().id == "obscuration");
    press(Qt::Key_Up);
    press(Qt::Key_Return); // to the first field
    CHECK(QApplication::focusWidget() == &open.field("reading"));
    type(QStringLiteral("40,5"));
    CHECK(open.desk->resultText("abv").isEmpty()); // the temperature is still missing
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    CHECK(QApplication::focusWidget() == &open.field("t"));
    type(QStringLiteral("20"));
    CHECK(open.desk->resultText("abv") == QStringLiteral("40.50"));
    press(Qt::Key_Escape);
    CHECK(open.window.page() == nullptr);
}

TEST_CASE("a slash and a comma are typed into a field and not taken for keys", "[ui][conversions]") {
    OpenDesk open;
    open.desk->choose("measures");
    open.desk->form().firstField()->setFocus();
    type(QStringLiteral("1 1/2 floz"));
    CHECK(open.field("amount").text() == QStringLiteral("1 1/2 floz"));
    CHECK(open.desk->resultText("result") == QStringLiteral("44.360"));
}

TEST_CASE("typing into one scale clears the other and fills the rest", "[ui][conversions]") {
    OpenDesk open;
    open.desk->choose("strength");
    open.field("abv").setFocus();
    type(QStringLiteral("40"));
    CHECK(open.field("us_proof").placeholderText() == QStringLiteral("79.86"));
    open.field("us_proof").setFocus();
    type(QStringLiteral("100"));
    CHECK(open.field("abv").text().isEmpty());
    CHECK(open.desk->resultText("abv") == QStringLiteral("50.06"));
    // Strength, sugar and density may all be given: then it says by how much they contradict each other.
    open.desk->choose("liqueur_sugar");
    for (const auto& [key, text] : {std::pair{"abv", "40"}, {"sugar", "300"}, {"density", "1050"}}) {
        open.field(key).setFocus();
        type(QString::fromLatin1(text));
    }
    CHECK(open.field("abv").text() == QStringLiteral("40"));
    CHECK_FALSE(open.desk->resultText("density_apart").isEmpty());
    CHECK(open.desk->asText().contains(QStringLiteral("contradict each other")));
}

TEST_CASE("a wrong entry explains itself under its own field", "[ui][conversions]") {
    OpenDesk open;
    auto& form = open.desk->form();
    open.desk->choose("strength");
    open.field("abv").setFocus();
    type(QStringLiteral("140"));
    CHECK(form.problemAt("abv") == QStringLiteral("Strength at 20 °C must be 0 to 100 % vol."));
    CHECK(open.field("abv").accessibleDescription() == form.problemAt("abv"));
    CHECK(form.problemAt("t").isEmpty());
    CHECK(open.desk->resultText("us_proof").isEmpty());
    press(Qt::Key_Backspace);
    CHECK(form.problemAt("abv").isEmpty());
    CHECK(open.desk->resultText("abv") == QStringLiteral("14.00"));
    type(QStringLiteral("x"));
    CHECK(form.problemAt("abv").contains(QStringLiteral("does not fit")));

    open.desk->choose("dilute");
    for (const auto& [key, text] : {std::pair{"volume", "700"}, {"abv", "40"}, {"target", "55"}}) {
        open.field(key).setFocus();
        type(QString::fromLatin1(text));
    }
    CHECK(form.problemAt("target").contains(QStringLiteral("Water never makes a liquid stronger")));
    CHECK(form.problemAt("abv").isEmpty());
}

TEST_CASE("where a comma marks decimals it is shown and read back", "[ui][conversions]") {
    const QLocale before;
    QLocale::setDefault(QLocale(QLocale::German));
    {
        ConversionsDesk desk;
        desk.choose("strength");
        auto* abv = qobject_cast<QLineEdit*>(desk.form().field("abv"));
        REQUIRE(abv != nullptr);
        abv->insert(QStringLiteral("40,5"));
        const QString proof = desk.resultText("us_proof");
        CHECK(proof == QStringLiteral("80,86"));
        auto* us = qobject_cast<QLineEdit*>(desk.form().field("us_proof"));
        us->insert(proof);
        CHECK(desk.resultText("abv") == QStringLiteral("40,50"));
    }
    QLocale::setDefault(before);
}

TEST_CASE("what is copied says inputs and results and source", "[ui][conversions]") {
    OpenDesk open;
    open.desk->choose("dilute");
    for (const auto& [key, text] : {std::pair{"volume", "1750 ml"}, {"abv", "50"}, {"target", "30"}}) {
        open.field(key).setFocus();
        type(QString::fromLatin1(text));
    }
    press(Qt::Key_C, Qt::ControlModifier | Qt::ShiftModifier);
    const QString text = QApplication::clipboard()->text();
    CHECK(text.contains(QStringLiteral("Liquid there is: 1750 ml\n")));
    CHECK(text.contains(QStringLiteral("Its strength: 50 % vol\n")));
    CHECK(text.contains(QStringLiteral("Water to add: 1180.8 ml\n")));
    CHECK(text.contains(QStringLiteral("Source: OIML R 22")));
}

TEST_CASE("every conversion of the desk has named fields and can be shown", "[ui][conversions]") {
    ConversionsDesk desk;
    desk.resize(900, 700);
    desk.show();
    for (const auto& conversion : physics::conversions()) {
        desk.choose(conversion.id);
        CHECK(desk.chosen().id == conversion.id);
        for (const auto& input : conversion.inputs) {
            INFO(conversion.id << " " << input.key);
            auto* field = desk.form().field(input.key);
            REQUIRE(field);
            CHECK_FALSE(field->accessibleName().isEmpty());
            CHECK(field->focusPolicy() != Qt::NoFocus);
        }
    }
    desk.filter().setText(QStringLiteral("no such word"));
    bool said = false;
    for (const auto* label : desk.findChildren<QLabel*>())
        said = said || (label->isVisible() && label->text().startsWith(QStringLiteral("No conversion")));
    CHECK(said);
}

// With STILLROOM_PICTURES set to a folder, what the desk looks like is left there for a person to look at.
TEST_CASE("the desk draws in light and dark and at twice the size", "[ui][conversions]") {
    auto& theme = Theme::current();
    theme.install();
    const auto choice = theme.choice();
    struct Look {
        const char* name;
        Theme::Choice choice;
        int zoom;
        QSize size;
    };
    const QString folder = qEnvironmentVariable("STILLROOM_PICTURES");
    for (const Look& look : {Look{"light", Theme::Choice::Light, 100, {1200, 760}},
                             Look{"dark", Theme::Choice::Dark, 100, {1200, 760}},
                             Look{"twice", Theme::Choice::Light, 200, {1800, 1400}}}) {
        theme.setChoice(look.choice);
        theme.setZoomPercent(look.zoom);
        ConversionsDesk desk;
        desk.resize(look.size);
        desk.show();
        desk.choose("dilute");
        for (const auto& [key, text] : {std::pair{"volume", "1750"}, {"abv", "50"}, {"target", "55"}})
            qobject_cast<QLineEdit*>(desk.form().field(key))->insert(QString::fromLatin1(text));
        CHECK_FALSE(desk.form().problemAt("target").isEmpty());
        QApplication::processEvents();
        const QImage wrong = desk.grab().toImage();
        desk.choose("syrup");
        qobject_cast<QLineEdit*>(desk.form().field("parts_weight"))->insert(QStringLiteral("2:1"));
        QApplication::processEvents();
        const QImage right = desk.grab().toImage();
        CHECK(wrong.size() == look.size);
        CHECK(wrong != right);
        if (folder.isEmpty()) continue;
        CHECK(wrong.save(
            QDir(folder).filePath(QStringLiteral("desk-wrong-%1.png").arg(QLatin1String(look.name)))));
        CHECK(right.save(QDir(folder).filePath(QStringLiteral("desk-%1.png").arg(QLatin1String(look.name)))));
    }
    theme.setZoomPercent(Theme::kLeastZoom);
    theme.setChoice(choice);
}
