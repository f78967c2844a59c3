// Taking something out of the larder, and taking steps back.
#include "core/larder/handbook.h"
#include "core/larder/leaning.h"
#include "core/preparation/recompute.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"

namespace stillroom::ui {

using base::IngredientId;
using larder::Ingredient;

namespace {

constexpr int kNamed = 3;

// "Quill Point, Ox Skerry and 2 more"
QString listed(const QStringList& names) {
    if (names.size() <= kNamed) return names.join(QStringLiteral(", "));
    return LarderEdit::tr("%1 and %2 more")
        .arg(QStringList(names.mid(0, kNamed)).join(QStringLiteral(", ")))
        .arg(names.size() - kNamed);
}

QStringList namesIn(const larder::Larder& larder, const std::vector<IngredientId>& ids) {
    QStringList names;
    for (const auto id : ids)
        if (const auto* known = larder.find(id)) names << fromCore(known->name);
    return names;
}

// Undone as any edit is: by writing it again. Its first doing is the binning.
class BinCommand : public QUndoCommand {
  public:
    using Write = std::function<bool(bool out)>;
    BinCommand(Write write, const QString& text) : QUndoCommand(text), m_write(std::move(write)) {}
    void redo() override {
        if (!m_write(true)) setObsolete(true);
    }
    void undo() override {
        if (!m_write(false)) setObsolete(true);
    }

  private:
    Write m_write;
};

} // namespace

QString LarderEdit::whyNotBinned(const Ingredient& known) const {
    if (m_book.book().isReadOnly()) return tr("This book is open to read only: nothing goes into the bin.");
    if (known.madeBy)
        return tr("%1 is made here: put its preparation in the bin instead.").arg(fromCore(known.name));
    const auto& larder = m_book.larder();
    const auto leaning = larder::leaningOn(larder, known.id);
    const QString name = fromCore(known.name);
    if (!leaning.pouredFor.empty())
        return tr("%1 stays: the house pours it for %2. Choose another bottle there first.")
            .arg(name, listed(namesIn(larder, leaning.pouredFor)));
    if (!leaning.gotFrom.empty())
        return tr("%1 stays: %2 is got from it.").arg(name, listed(namesIn(larder, leaning.gotFrom)));
    if (!leaning.bottles.empty())
        return tr("%1 stays: %2 is a bottle of it.").arg(name, listed(namesIn(larder, leaning.bottles)));
    if (m_uses->drafts == 0) return {};
    QStringList drinks;
    for (const auto id : m_uses->inDrafts)
        if (const auto* summary = m_book.summary(id)) drinks << fromCore(summary->name);
    return tr("%1 stays: %2. Take it out of there first.")
        .arg(name, drinks.isEmpty() ? tr("drafts name it") : tr("drafts of %1 name it").arg(listed(drinks)));
}

void LarderEdit::bin() {
    if (!hasChosen()) return;
    if (isNew()) {
        leave();
        return;
    }
    const auto* known = m_book.larder().find(m_chosen);
    if (known == nullptr) return;
    if (known == larder::Handbook::builtIn().find(m_chosen)) {
        Q_EMIT refused(tr("%1 is the handbook's, not this book's: there is nothing to take out.")
                           .arg(fromCore(known->name)));
        return;
    }
    if (!m_uses) {
        m_binAsked = true; // decided when it is known
        return;
    }
    const QString why = whyNotBinned(*known);
    if (!why.isEmpty())
        Q_EMIT refused(why);
    else
        binNow(*known);
}

void LarderEdit::binNow(const Ingredient& known) {
    Ingredient was = known;
    std::erase_if(was.packs,
                  [&](const larder::Pack& pack) { return preparation::isCostOfMaking(pack, was.id); });
    const QString what = fromCore(known.name);
    const int revisions = m_uses ? m_uses->revisions : 0;
    m_pending.erase(m_chosen);
    m_undo.push(new BinCommand(
        [this, was](bool out) { return out ? write({}, {was.id}, true) : write({was}, {}, true); }, what));
    if (!m_undo.canUndo()) return; // it could not be written, and that was told
    if (hasChosen() && m_book.larder().find(m_chosen) == nullptr) choose({});
    Q_EMIT said(revisions == 0
                    ? tr("%1 is in the bin. Ctrl Z brings it back.").arg(what)
                    : tr("%1 is in the bin; the %2 kept revisions that name it keep their numbers. Ctrl Z "
                         "brings it back.")
                          .arg(what)
                          .arg(revisions));
}

bool LarderEdit::takeBack() {
    return step(true);
}
bool LarderEdit::doAgain() {
    return step(false);
}

bool LarderEdit::step(bool back) {
    if (isPending()) {
        Q_EMIT said(
            tr("An edit waits here: Ctrl Enter accepts it, Esc leaves it. Then Ctrl Z goes further."));
        return false;
    }
    const QString name = back ? m_undo.undoText() : m_undo.redoText();
    if (back ? !m_undo.canUndo() : !m_undo.canRedo()) {
        Q_EMIT said(back ? tr("Nothing to take back here.") : tr("Nothing to do again here."));
        return false;
    }
    back ? m_undo.undo() : m_undo.redo();
    Q_EMIT said(back ? tr("Taken back: %1").arg(name) : tr("Done again: %1").arg(name));
    return true;
}

} // namespace stillroom::ui
