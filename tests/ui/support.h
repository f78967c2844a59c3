#pragma once

#include "core/store/workbook.h"
#include "ui/session/desk.h"
#include "ui/session/line_entry.h"
#include "ui/text/border.h"

#include <QApplication>
#include <QTemporaryDir>
#include <QtTest/QTest>

#include <string>
#include <vector>

namespace stillroom::ui::test {

// A book in a folder of its own, gone after the test.
class TempBook {
  public:
    TempBook() { desk.createBook(path(), settings()); }
    QString path() const { return m_dir.filePath(QStringLiteral("book.stillroom")); }
    QString pathOf(const QString& name) const { return m_dir.filePath(name); }
    static store::BookSettings settings() {
        store::BookSettings settings;
        settings.name = "The Low Lamp";
        return settings;
    }
    spec::Spec spec(const std::vector<std::string>& lines) const {
        spec::Spec spec;
        for (const auto& text : lines)
            for (const auto& line :
                 readEntry(fromCore(text), desk.book()->readOptions(), desk.book()->larder()).lines)
                spec.lines.push_back(line);
        return spec;
    }
    DraftSession& drink(const std::string& name, const std::vector<std::string>& lines) {
        desk.newDrink(history::DrinkForm::Drink, fromCore(name), spec(lines));
        return *desk.draft();
    }

  private:
    QTemporaryDir m_dir;

  public:
    Desk desk;
};

inline std::vector<std::string> sourLines() {
    return {"45 ml London dry gin", "15 ml gentian liqueur", "22.5 ml lemon juice"};
}

inline spec::Measured ml(std::int64_t numerator, std::int64_t denominator = 1) {
    spec::Measured measured;
    measured.amount = quantity::Amount::exact(*quantity::Rational::make(numerator, denominator));
    measured.measure = quantity::Measure::Ml;
    return measured;
}

// Keys go where a person's would: to the widget that has the focus.
inline void type(const QString& text) {
    REQUIRE(QApplication::focusWidget() != nullptr);
    QTest::keyClicks(QApplication::focusWidget(), text);
}
inline void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
    QWidget* to = QApplication::focusWidget() ? QApplication::focusWidget() : QApplication::activeWindow();
    REQUIRE(to != nullptr);
    QTest::keyClick(to, key, modifiers);
}

} // namespace stillroom::ui::test
