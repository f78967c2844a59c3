#include "ui/session/keep_measured.h"

#include "core/larder/handbook.h"
#include "ui/session/desk.h"
#include "ui/session/larder_edit.h"

#include <QUndoCommand>

namespace stillroom::ui {

namespace {

// The lot first: the ingredient then names one that is there. Both orders leave a sound book in between.
void write(WorkbookSession& book, const larder::Ingredient& state, const std::optional<larder::Lot>& lot) {
    if (lot) book.saveLot(*lot, false);
    const auto* builtIn = larder::Handbook::builtIn().find(state.id);
    if (!lot && builtIn != nullptr && *builtIn == state)
        book.saveIngredients({}, {state.id}); // what the handbook says needs no copy in the book
    else
        book.saveIngredients({state});
}

class MeasuredCommand : public QUndoCommand {
  public:
    MeasuredCommand(Desk& desk, preparation::MeasuredKeep keep, const QString& text)
        : QUndoCommand(text),
          m_desk(desk),
          m_keep(std::move(keep)) {}

    void undo() override {
        auto lot = m_keep.lotBefore;
        if (!lot && m_keep.lotAfter) {
            lot = m_keep.lotAfter; // a lot once written stays in the book, as one that is used up
            lot->usedUp = true;
        }
        writeOrDrop(m_keep.before, lot);
    }
    // The first redo is the keeping itself, which was written before this was pushed.
    void redo() override {
        if (!std::exchange(m_first, false)) writeOrDrop(m_keep.after, m_keep.lotAfter);
    }

  private:
    void writeOrDrop(const larder::Ingredient& state, const std::optional<larder::Lot>& lot) {
        if (!m_desk.attempt([&] { write(*m_desk.book(), state, lot); })) setObsolete(true);
    }

    Desk& m_desk;
    preparation::MeasuredKeep m_keep;
    bool m_first = true;
};

} // namespace

bool keepMeasured(Desk& desk, const preparation::MeasuredKeep& keep, const QString& what) {
    if (!desk.attempt([&] { write(*desk.book(), keep.after, keep.lotAfter); })) return false;
    desk.book()->larderEdit().undoStack().push(new MeasuredCommand(desk, keep, what));
    return true;
}

} // namespace stillroom::ui
