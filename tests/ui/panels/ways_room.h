#pragma once

#include "tests/ui/desktop.h"
#include "ui/panels/measuring/ways_page.h"

#include <QLineEdit>

namespace stillroom::ui::test {

// The window with a page of ways open: its fields by their keys, and what it answers.
template <class Page>
struct WaysRoom : Desktop {
    void openBy(Qt::Key key) {
        press(key, Qt::ControlModifier | Qt::ShiftModifier);
        REQUIRE(window.page() != nullptr);
    }
    Page& page() {
        auto* found = qobject_cast<Page*>(window.page());
        REQUIRE(found != nullptr);
        return *found;
    }
    QLineEdit& field(std::string_view key) {
        auto* edit = qobject_cast<QLineEdit*>(page().form().field(key));
        REQUIRE(edit != nullptr);
        return *edit;
    }
    void fill(std::string_view key, const QString& text) {
        field(key).setFocus();
        field(key).selectAll();
        press(Qt::Key_Delete);
        type(text);
    }
    const larder::Ingredient& known(std::string_view name) {
        const auto& larder = window.desk().book()->larder();
        const auto match = larder.match(name);
        REQUIRE_FALSE(match.ingredient.isNull());
        return *larder.find(match.ingredient);
    }
    QString headline() { return page().strip().headline(); }
    QString detail() { return page().strip().detail(); }
};

} // namespace stillroom::ui::test
