#include "ui/panels/measuring/open_measuring.h"

#include "core/spec/edit.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/panels/measuring/measuring_page.h"
#include "ui/panels/measuring/target_page.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/session/keep_measured.h"
#include "ui/session/larder_edit.h"
#include "ui/text/numbers.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

// What was in hand: in the larder, or on the line of the bench.
std::optional<base::IngredientId> inHand(MainWindow& window, bool fromLarder) {
    auto* draft = window.desk().draft();
    if (fromLarder) {
        const auto& edit = window.desk().book()->larderEdit();
        return edit.hasChosen() ? std::optional(edit.chosen()) : std::nullopt;
    }
    const int line = draft && !window.page() ? window.bench().sheet().table().currentLine() : -1;
    if (line < 0 || static_cast<std::size_t>(line) >= draft->spec().lines.size()) return std::nullopt;
    return draft->spec().lines[static_cast<std::size_t>(line)].ingredient;
}

void openMeasuring(MainWindow& window) {
    auto* book = window.desk().book();
    if (book == nullptr || qobject_cast<MeasuringPage*>(window.page()) != nullptr) return;
    if (window.page() == nullptr && !window.bench().sheet().table().finishEditing()) return;
    const bool fromLarder = qobject_cast<LarderPage*>(window.page()) != nullptr;
    const auto chosen = inHand(window, fromLarder);
    auto* draft = window.showsRevision() ? nullptr : window.desk().draft();
    auto* page = new MeasuringPage(*book, draft);
    page->chooseIngredient(chosen);
    QObject::connect(page, &WaysPage::closed, &window, [&window, fromLarder] {
        window.closePage();
        if (fromLarder) window.actions().at(Act::Larder)->trigger();
    });
    QObject::connect(page, &MeasuringPage::keepAsked, page,
                     [&window](const preparation::MeasuredKeep& keep, const QString& what) {
                         if (keepMeasured(window.desk(), keep, what))
                             window.status().say(MainWindow::tr("Kept: %1. Ctrl Z takes it back.").arg(what));
                     });
    QObject::connect(
        page, &MeasuringPage::dilutionAsked, page, [&window, draft](const spec::DilutionEntry& entry) {
            if (draft->apply(spec::withDilution(draft->spec(), entry), MainWindow::tr("Water, as weighed")))
                window.status().say(
                    MainWindow::tr("The draft has the water as weighed. Undo on the bench takes "
                                   "it back."));
        });
    // A tasting hangs on a kept revision; what is not kept yet has none.
    const bool kept = draft != nullptr && draft->base() && draft->base()->spec == draft->spec();
    page->setTastingOffered(kept || (draft != nullptr && window.chosenRevision()));
    QObject::connect(page, &MeasuringPage::tastingAsked, &window, [&window](quantity::Mass served) {
        window.closePage();
        window.actions().at(Act::Taste)->trigger();
        auto* tasting = qobject_cast<TastingPage*>(window.page());
        if (tasting == nullptr) return;
        auto input = tasting->input(); // what was written of it before stands
        input.circumstances.weight = trimmedNumber(served.grams(), 1);
        tasting->setInput(input);
        window.status().say(MainWindow::tr("The weight stands in the tasting; save it there."));
    });
    QObject::connect(page, &MeasuringPage::takeBackAsked, page, [&window, book] {
        auto& stack = book->larderEdit().undoStack();
        const QString what = stack.undoText();
        if (!stack.canUndo()) return;
        stack.undo();
        window.status().say(MainWindow::tr("Taken back: %1.").arg(what));
    });
    window.showPage(page);
}

void openTarget(MainWindow& window) {
    auto* book = window.desk().book();
    if (book == nullptr || qobject_cast<TargetPage*>(window.page()) != nullptr) return;
    if (window.page() == nullptr && !window.bench().sheet().table().finishEditing()) return;
    const bool fromLarder = qobject_cast<LarderPage*>(window.page()) != nullptr;
    const auto chosen = inHand(window, fromLarder);
    auto* draft = window.showsRevision() || fromLarder ? nullptr : window.desk().draft();
    if (draft != nullptr && draft->drink().form != history::DrinkForm::Preparation) draft = nullptr;
    auto* page = new TargetPage(*book, draft);
    page->setInHand(chosen);
    QObject::connect(page, &WaysPage::closed, &window, [&window, fromLarder] {
        window.closePage();
        if (fromLarder) window.actions().at(Act::Larder)->trigger();
    });
    QObject::connect(page, &TargetPage::said, &window.status(), &StatusLine::say);
    QObject::connect(
        page, &TargetPage::draftAsked, page, [&window, draft](const spec::Spec& spec, const QString& what) {
            if (!draft->apply(spec, what)) return;
            window.closePage();
            window.status().say(MainWindow::tr("In the draft: %1. Ctrl Z takes it back.").arg(what));
        });
    QObject::connect(page, &TargetPage::preparationAsked, page,
                     [&window](const QString& name, const spec::Spec& spec) {
                         if (window.desk().newDrink(history::DrinkForm::Preparation, name, spec))
                             window.status().say(MainWindow::tr("A new preparation: %1.").arg(name));
                     });
    window.showPage(page);
}

} // namespace

void connectMeasuring(MainWindow& window) {
    QObject::connect(window.actions().at(Act::BringToTarget), &QAction::triggered, &window,
                     [&window] { openTarget(window); });
    QObject::connect(window.actions().at(Act::FindFact), &QAction::triggered, &window,
                     [&window] { openMeasuring(window); });
    const auto enable = [&window] {
        for (const auto act : {Act::FindFact, Act::BringToTarget})
            window.actions().at(act)->setEnabled(window.desk().book() != nullptr);
    };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    enable();
}

} // namespace stillroom::ui
