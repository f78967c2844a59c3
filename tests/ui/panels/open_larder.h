#pragma once

#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/larder/entry_field.h"
#include "ui/panels/larder/entry_table.h"
#include "ui/panels/larder/ingredient_sheet.h"
#include "ui/panels/larder/larder_list.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/session/larder_edit.h"

#include <QTableView>

namespace stillroom::ui::test {

using namespace Qt::Literals::StringLiterals;

// The window with one sour in it and the larder open, as a person opens it.
struct OpenLarder : Desktop {
    OpenLarder() {
        newDrink(u"Quill Point"_s);
        write({u"45 ml London dry gin"_s, u"22.5 ml lemon juice"_s, u"20 ml simple syrup"_s});
        press(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
        page = qobject_cast<LarderPage*>(window.page());
        REQUIRE(page != nullptr);
    }
    LarderEdit& edit() { return page->edit(); }
    const larder::Ingredient& gin() {
        const auto match = window.desk().book()->larder().match("London dry gin");
        return *window.desk().book()->larder().find(match.ingredient);
    }
    // "/", part of its name, Enter on the list, Enter into the facts.
    void choose(const QString& name) {
        press(Qt::Key_Slash);
        REQUIRE(page->list().filterField().hasFocus());
        type(name);
        press(Qt::Key_Return);
        REQUIRE(page->list().table().hasFocus());
        press(Qt::Key_Return);
        REQUIRE(page->sheet().facts().hasFocus());
    }
    void at(int row, int column) {
        auto& table = page->sheet().facts();
        table.setCurrentIndex(table.model()->index(row, column));
    }
    // Types over the cell in hand, as a person does.
    void typeOver(const QString& text) {
        for (const QChar letter : text) // the first one opens the cell, the others go into it
            type(QString(letter));
        REQUIRE(page->sheet().facts().isEditing());
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([&] { return !page->sheet().facts().isEditing(); }));
    }
    void waitForImpact() {
        REQUIRE(QTest::qWaitFor([&] { return edit().impact() != nullptr; }));
    }
    // Types over a field of the sheet and leaves it with Enter.
    void fill(EntryField& field, const QString& text) {
        QApplication::setActiveWindow(&window); // a list of offers may have been made active late
        field.setFocus(Qt::TabFocusReason);
        REQUIRE(field.hasFocus());
        field.selectAll();
        if (text.isEmpty())
            press(Qt::Key_Delete);
        else
            type(text);
        if (auto* list = QApplication::activePopupWidget()) { // as typed, not as offered
            list->hide();
            QApplication::setActiveWindow(&window);
        }
        press(Qt::Key_Return);
    }
    const larder::Ingredient& named(const char* name) {
        const auto match = window.desk().book()->larder().match(name);
        const auto* known = window.desk().book()->larder().find(match.ingredient);
        REQUIRE(known != nullptr);
        return *known;
    }
    LarderPage* page = nullptr;
};

} // namespace stillroom::ui::test
