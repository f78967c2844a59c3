#pragma once

#include "tests/ui/desktop.h"
#include "ui/panels/preparation/batch_dialog.h"
#include "ui/panels/preparation/preparation_panel.h"
#include "ui/panels/preparation/step_form.h"
#include "ui/panels/preparation/step_pane.h"
#include "ui/plots/stand_grid.h"
#include "ui/plots/step_bars.h"
#include "ui/widgets/number_edit.h"

namespace stillroom::ui::test {

// The window with a syrup of one to one on the bench.
struct Kitchen : Desktop {
    Kitchen() {
        trigger(Act::NewPreparation);
        type(QStringLiteral("Heather syrup"));
        press(Qt::Key_Return);
        press(Qt::Key_Return);
        write({QStringLiteral("500 g white sugar"), QStringLiteral("500 g water")});
        press(Qt::Key_Escape);
    }
    StepPane& pane() { return window.bench().sheet().steps(); }
    StepBars& bars() { return pane().bars(); }
    StepForm& form() { return pane().form(); }
    PreparationPanel& panel() { return window.bench().preparation(); }
    const StandColumn& usable() {
        for (const auto& column : panel().grid().values().columns)
            if (column.strong) return column;
        throw std::runtime_error("no usable column");
    }
    NumberEdit& figure(std::optional<double> spec::Step::*which) {
        auto* edit = form().field(which);
        REQUIRE(edit != nullptr);
        edit->setFocus();
        return *edit;
    }
};

inline BatchDialog& openBatch(Kitchen& kitchen) {
    press(Qt::Key_M, Qt::ControlModifier);
    auto* dialog = kitchen.window.findChild<BatchDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    return *dialog;
}

inline void waitBatchClosed(Kitchen& kitchen) {
    REQUIRE(QTest::qWaitFor([&] { return kitchen.window.findChild<BatchDialog*>() == nullptr; }));
    QApplication::setActiveWindow(&kitchen.window);
    kitchen.table().setFocus();
}

} // namespace stillroom::ui::test
