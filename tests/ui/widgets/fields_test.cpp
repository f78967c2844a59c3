#include "tests/support/catch.h"
#include "tests/ui/support.h"
#include "ui/dialogs/facts_dialog.h"
#include "ui/dialogs/measures_dialog.h"
#include "ui/main_window.h"
#include "ui/widgets/number_edit.h"

#include <QAbstractItemView>
#include <QComboBox>
#include <QLineEdit>
#include <QPlainTextEdit>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

TEST_CASE("A number field reads a point as a point under a decimal comma", "[ui][widgets]") {
    const QLocale before;
    QLocale::setDefault(QLocale(QLocale::German, QLocale::Germany));
    NumberEdit field;
    QTest::keyClicks(&field, QStringLiteral("2.5"));
    CHECK(field.value() == 2.5);
    field.setValue(0.75, 2);
    CHECK(field.text() == QStringLiteral("0,75"));
    CHECK(field.value() == 0.75);
    field.setText(QStringLiteral("1.234,5"));
    CHECK(field.isUnreadable());
    CHECK_FALSE(field.value());
    QLocale::setDefault(before);
}

TEST_CASE("Facts typed from a label are taken and empty fields stay unknown", "[ui][widgets]") {
    larder::Ingredient ingredient;
    ingredient.id = base::IngredientId::random();
    ingredient.name = "gentian liqueur";
    FactsDialog dialog(ingredient, {});
    dialog.show();
    std::optional<larder::Ingredient> saved;
    QObject::connect(&dialog, &FactsDialog::saveAsked, &dialog,
                     [&](const larder::Ingredient& next) { saved = next; });
    QTest::keyClicks(&dialog.strength(), QStringLiteral("17,5"));
    QTest::keyClicks(&dialog.price(), QStringLiteral("12.50"));
    QTest::keyClicks(&dialog.packMl(), QStringLiteral("700"));
    dialog.strength().setFocus();
    QTest::keyClick(&dialog, Qt::Key_Return);
    REQUIRE(saved);
    CHECK(saved->facts.abvPercent->typical == 17.5);
    CHECK(saved->facts.abvPercent->sourceKind == larder::SourceKind::Label);
    CHECK_FALSE(saved->facts.sugarGPerL);
    REQUIRE(saved->packs.size() == 1);
    CHECK(saved->packs[0].price.minor == 1250);
    CHECK(saved->packs[0].forMl == 700);
}

TEST_CASE("Facts that cannot all be true say by how much", "[ui][widgets]") {
    larder::Ingredient ingredient;
    ingredient.name = "orange liqueur";
    FactsDialog dialog(ingredient, {});
    dialog.show();
    QTest::keyClicks(&dialog.strength(), QStringLiteral("40"));
    QTest::keyClicks(&dialog.sugar(), QStringLiteral("100"));
    CHECK(dialog.note().isEmpty());
    QTest::keyClicks(&dialog.density(), QStringLiteral("1010"));
    CHECK(dialog.note().contains(QStringLiteral("kg/m³ above")));
    CHECK(dialog.note().contains(QStringLiteral("more sugar")));
    dialog.density().clear();
    CHECK(dialog.note().isEmpty());
}

TEST_CASE("A house measure changed says it is the house's own", "[ui][widgets]") {
    store::BookSettings settings;
    MeasuresDialog dialog(settings);
    dialog.show();
    std::optional<store::BookSettings> saved;
    QObject::connect(&dialog, &MeasuresDialog::saveAsked, &dialog,
                     [&](const store::BookSettings& next) { saved = next; });
    auto* dash = dialog.fieldOf(quantity::Measure::Dash);
    REQUIRE(dash != nullptr);
    dash->clear();
    QTest::keyClicks(dash, QStringLiteral("0,8"));
    QTest::keyClick(&dialog, Qt::Key_Return);
    REQUIRE(saved);
    CHECK(saved->rules.measures.volumesMl.at(quantity::Measure::Dash).typical == 0.8);
    CHECK(saved->rules.measures.volumesMl.at(quantity::Measure::Dash).source == "this house");
    const auto& barspoon = settings.rules.measures.volumesMl.at(quantity::Measure::Barspoon);
    CHECK(saved->rules.measures.volumesMl.at(quantity::Measure::Barspoon) == barspoon);
}

TEST_CASE("Everything that takes input has a name", "[ui][widgets]") {
    TempBook book;
    MainWindow window;
    REQUIRE(window.desk().createBook(book.pathOf(QStringLiteral("other.stillroom")), {}));
    window.desk().newDrink(history::DrinkForm::Drink, QStringLiteral("Ox Skerry"), book.spec(sourLines()));
    int inputs = 0;
    for (const auto* widget : window.findChildren<QWidget*>()) {
        const bool takesInput =
            qobject_cast<const QLineEdit*>(widget) || qobject_cast<const QPlainTextEdit*>(widget) ||
            qobject_cast<const QAbstractItemView*>(widget) || qobject_cast<const QComboBox*>(widget);
        if (!takesInput || widget->focusPolicy() == Qt::NoFocus) continue;
        INFO(widget->metaObject()->className()
             << " in " << widget->parentWidget()->metaObject()->className());
        CHECK_FALSE(widget->accessibleName().isEmpty());
        ++inputs;
    }
    CHECK(inputs >= 10);
}
