#pragma once

#include "core/preparation/findings.h"
#include "ui/session/impact_reading.h"
#include "ui/session/workbook_session.h"
#include "ui/text/words.h"

#include <QObject>
#include <QUndoStack>

#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace stillroom::ui {

// An edit of the larder on its way: pending until somebody has seen what it does and accepts it. Each
// ingredient keeps its own pending edit, with what was typed and cannot be read yet, until it is accepted or
// left. Accepting is one write of everything or nothing, and one step that can be undone.
class LarderEdit : public QObject {
    Q_OBJECT

  public:
    explicit LarderEdit(WorkbookSession& book);
    ~LarderEdit() override;

    WorkbookSession& book() { return m_book; }
    const WorkbookSession& book() const { return m_book; }

    void choose(base::IngredientId ingredient);
    base::IngredientId chosen() const { return m_chosen; }
    bool hasChosen() const { return !m_chosen.isNull(); }
    // As stored, and as it would be. Only with something chosen.
    const larder::Ingredient& stored() const;
    const larder::Ingredient& now() const;
    const larder::Larder& larderNow() const; // with the pending edit in it
    // Made here: its facts come from its own spec, nobody types them.
    bool isMade() const { return now().madeBy.has_value(); }
    bool isPending() const; // something differs, or something typed cannot be read
    bool isPending(base::IngredientId ingredient) const;
    bool isNew() const; // not in the larder until it is accepted

    // The next state of the chosen ingredient. Equal to the present one: nothing happens.
    void set(larder::Ingredient next);
    // Another that goes with it: the kind that is poured from this bottle.
    void setBeside(const larder::Ingredient& other);
    // A lot of the chosen ingredient, as it would be; a new one when nobody knows it.
    void setLot(const larder::Lot& lot);
    bool hasLotsPending() const { return found() != nullptr && !found()->lots.empty(); }
    // What stands in a field and cannot be read, by the field's name; an empty text takes it away.
    void setTyped(const QString& field, const QString& text);
    QString typed(const QString& field) const;
    bool hasTyped(const QString& field) const;

    const std::vector<preparation::Finding>& findings() const { return m_findings; }
    // Nothing refuses, everything typed is readable, the book can be written.
    bool canAccept() const;
    bool accept(); // false: it could not be written (failed was told), or there is nothing to accept
    void leave();  // the pending edit of the chosen ingredient is dropped
    // A new bottle of a kind, or a kind of its own: pending, with no name yet.
    void begin(larder::IngredientSort sort, std::optional<base::IngredientId> kind);
    // Out of the larder, or a handbook kind back to what the handbook says, once it is known where it is
    // used. Refused, in words, while a draft needs it or something in the larder leans on it.
    void bin();
    // What goes with the pending edit: the kind that pours this bottle, as it would be.
    std::vector<larder::Ingredient> besideNow() const;
    // One step of what was accepted. False: there is none, or an edit waits that it would undo unseen.
    bool takeBack();
    bool doAgain();

    const std::shared_ptr<const UsesFound>& uses() const { return m_uses; }
    const std::shared_ptr<const ImpactFound>& impact() const { return m_impact; }
    bool isReadingImpact() const;
    QUndoStack& undoStack() { return m_undo; }
    ImpactReading& reading() { return m_reading; }
    std::string today() const;
    larder::PriceQuestion priceQuestion() const;
    void refresh(); // the book may have changed since the page was last open

  Q_SIGNALS:
    void chosenChanged();
    void changed();       // the pending state
    void impactChanged(); // uses or impact were found, or are no longer true
    void accepted(const QString& what);
    void said(const QString& words);
    void refused(const QString& words);
    void failed(const stillroom::ui::Sentence& sentence);

  private:
    friend class LarderCommand;
    struct Pending {
        larder::Ingredient now;
        std::map<base::IngredientId, larder::Ingredient> beside;
        std::map<base::LotId, larder::Lot> lots;
        std::map<QString, QString> typed;
        bool isNew = false;
    };
    Pending& pending();
    const Pending* found() const;
    preparation::LarderEdit edit() const;     // the chosen first
    std::vector<larder::Lot> lotsNow() const; // pending
    void told();                              // the pending state is another
    void reread();
    void dropIfSame();
    void onLarderChanged();
    // `keepPending`: what waits on others' states stays, it was not accepted with these.
    bool write(const preparation::LarderEdit& states, const std::vector<base::IngredientId>& gone,
               bool keepPending = false, const std::vector<larder::Lot>& lots = {},
               const std::vector<base::LotId>& lotsGone = {});
    QString whyNotBinned(const larder::Ingredient& known) const; // empty: it can go
    void binNow(const larder::Ingredient& known);
    bool step(bool back);

    WorkbookSession& m_book;
    base::IngredientId m_chosen;
    bool m_binAsked = false;
    std::map<base::IngredientId, Pending> m_pending;
    mutable std::optional<larder::Larder> m_larderNow;
    std::vector<preparation::Finding> m_findings;
    std::shared_ptr<const UsesFound> m_uses;
    std::shared_ptr<const ImpactFound> m_impact;
    QUndoStack m_undo;
    ImpactReading m_reading;
};

} // namespace stillroom::ui
