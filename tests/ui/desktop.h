#pragma once

#include "tests/ui/support.h"
#include "ui/dialogs/keep_dialog.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/gauges_panel.h"
#include "ui/panels/sheet_panel.h"
#include "ui/widgets/cell_edit.h"
#include "ui/widgets/readings_table.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/written_field.h"

#include <QAction>
#include <QTemporaryDir>

namespace stillroom::ui::test {

// The window on an empty book, as a person finds it.
struct Desktop {
    Desktop() {
        REQUIRE(window.desk().createBook(path(), {}));
        window.show();
        QApplication::setActiveWindow(&window);
        REQUIRE(QTest::qWaitFor([this] { return window.isActiveWindow(); }));
    }
    QString path() const { return dir.filePath(QStringLiteral("book.stillroom")); }
    SpecTable& table() { return window.bench().sheet().table(); }
    DraftSession& draft() { return *window.desk().draft(); }
    void trigger(Act act) { window.actions().at(act)->trigger(); }
    QString served(spec::Quantity quantity) {
        auto& model = window.bench().gauges().table().readings();
        for (int row = 0; row < model.rowCount(); ++row)
            if (model.row(row).quantity == quantity)
                return model.index(row, ReadingsModel::Served).data().toString();
        return {};
    }
    void newDrink(const QString& name) {
        trigger(Act::NewDrink);
        type(name);
        press(Qt::Key_Return); // to the brief
        type(QStringLiteral("Smoke first, then honey."));
        press(Qt::Key_Return); // to the lines
    }
    void write(const QStringList& lines) {
        for (const auto& line : lines) {
            type(line);
            press(Qt::Key_Return);
        }
    }
    void keep(const QString& reason) {
        press(Qt::Key_S, Qt::ControlModifier);
        auto* dialog = window.findChild<KeepDialog*>();
        REQUIRE(dialog != nullptr);
        QApplication::setActiveWindow(dialog);
        dialog->reason().setFocus();
        dialog->reason().selectAll();
        QTest::keyClicks(&dialog->reason(), reason);
        QTest::keyClick(&dialog->reason(), Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([this] { return window.findChild<KeepDialog*>() == nullptr; }));
        QApplication::setActiveWindow(&window);
    }
    // A list of offers takes the keys while it is open.
    static void pressIntoList(Qt::Key key) {
        REQUIRE(QApplication::activePopupWidget() != nullptr);
        QTest::keyClick(QApplication::activePopupWidget(), key);
    }

    QTemporaryDir dir;
    MainWindow window;
};

} // namespace stillroom::ui::test
