#include "ui/session/keep_measured.h"

#include "core/larder/handbook.h"
#include "ui/session/desk.h"
#include "ui/session/larder_edit.h"

#include <QUndoCommand>

namespace stillroom::ui {

namespace {

void write(WorkbookSession& book, const larder::Ingredient& state, const std::optional<larder::Lot>& lot,
           const std::vector<base::LotId>& lotsGone = {}) {
    const auto lots = lot ? std::vector<larder::Lot>{*lot} : std::vector<larder::Lot>{};
    const auto* builtIn = larder::Handbook::builtIn().find(state.id);
    if (!lot && builtIn != nullptr && *builtIn == state)
        book.saveIngredients({}, {state.id}, lots,
                             lotsGone); // what the handbook says needs no copy in the book
    else
        book.saveIngredients({state}, {}, lots, lotsGone);
}

class MeasuredCommand : public QUndoCommand {
  public:
    MeasuredCommand(Desk& desk, preparation::MeasuredKeep keep, const QString& text)
        : QUndoCommand(text),
          m_desk(desk),
          m_keep(std::move(keep)) {}

    void undo() override {
        const bool added = !m_keep.lotBefore && m_keep.lotAfter;
        writeOrDrop(m_keep.before, m_keep.lotBefore,
                    added ? std::vector{m_keep.lotAfter->id} : std::vector<base::LotId>{});
    }
    // The first redo is the keeping itself, which was written before this was pushed.
    void redo() override {
        if (!std::exchange(m_first, false)) writeOrDrop(m_keep.after, m_keep.lotAfter);
    }

  private:
    void writeOrDrop(const larder::Ingredient& state, const std::optional<larder::Lot>& lot,
                     const std::vector<base::LotId>& lotsGone = {}) {
        if (!m_desk.attempt([&] { write(*m_desk.book(), state, lot, lotsGone); })) setObsolete(true);
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
