#include "ui/session/larder_edit.h"

#include "core/larder/handbook.h"
#include "core/preparation/recompute.h"
#include "ui/text/border.h"

#include <algorithm>

namespace stillroom::ui {

using base::IngredientId;
using larder::Ingredient;

// What was stored before and after; with what was not in the book before.
class LarderCommand : public QUndoCommand {
  public:
    struct States {
        preparation::LarderEdit ingredients;
        std::vector<larder::Lot> lots;
        std::vector<base::LotId> lotsGone; // of before: they were added
    };
    LarderCommand(LarderEdit& edit, States before, States after, std::vector<IngredientId> added,
                  const QString& text)
        : QUndoCommand(text),
          m_edit(edit),
          m_before(std::move(before)),
          m_after(std::move(after)),
          m_added(std::move(added)) {}

    void undo() override {
        if (!m_edit.write(m_before.ingredients, m_added, true, m_before.lots, m_before.lotsGone))
            setObsolete(true);
    }
    // The first redo is the accepting itself, which was written before this was pushed.
    void redo() override {
        if (std::exchange(m_first, false)) return;
        if (!m_edit.write(m_after.ingredients, {}, true, m_after.lots)) setObsolete(true);
    }

  private:
    LarderEdit& m_edit;
    States m_before, m_after;
    std::vector<IngredientId> m_added;
    bool m_first = true;
};

namespace {

// What making it cost is worked out, never stored: a stored price would stand for a typed one.
Ingredient asStored(Ingredient ingredient) {
    std::erase_if(ingredient.packs,
                  [&](const larder::Pack& pack) { return preparation::isCostOfMaking(pack, ingredient.id); });
    return ingredient;
}

const Ingredient& nothing() {
    static const Ingredient none;
    return none;
}

} // namespace

LarderEdit::LarderEdit(WorkbookSession& book) : QObject(nullptr), m_book(book), m_reading(book) {
    connect(&m_book, &WorkbookSession::larderChanged, this, &LarderEdit::onLarderChanged);
    connect(&m_reading, &ImpactReading::usesFound, this, [this](const auto& uses) {
        if (uses->ingredient != m_chosen) return;
        const bool preparationsKnown = m_uses != nullptr;
        m_uses = uses;
        if (std::exchange(m_binAsked, false)) {
            bin();
            return;
        }
        if (!preparationsKnown && isPending()) reread(); // a circle shows only now
        Q_EMIT impactChanged();
    });
    connect(&m_reading, &ImpactReading::impactFound, this, [this](const auto& impact) {
        m_impact = impact;
        Q_EMIT impactChanged();
    });
}

LarderEdit::~LarderEdit() = default;

void LarderEdit::refresh() {
    m_reading.refresh();
    m_uses.reset();
    if (!hasChosen()) return;
    m_reading.askUses(m_chosen);
    if (isPending()) m_reading.ask(edit(), lotsNow());
}

void LarderEdit::choose(IngredientId ingredient) {
    if (ingredient == m_chosen) return;
    m_chosen = ingredient;
    m_binAsked = false;
    m_uses.reset();
    m_impact.reset();
    m_larderNow.reset();
    reread();
    if (hasChosen()) {
        if (isPending())
            m_reading.ask(edit(), lotsNow());
        else
            m_reading.askUses(m_chosen);
    }
    Q_EMIT chosenChanged();
}

const Ingredient& LarderEdit::stored() const {
    const auto* known = m_book.larder().find(m_chosen);
    return known != nullptr ? *known : nothing();
}

const Ingredient& LarderEdit::now() const {
    const auto* pending = found();
    return pending != nullptr ? pending->now : stored();
}

const larder::Larder& LarderEdit::larderNow() const {
    if (!m_larderNow) {
        m_larderNow = m_book.larder();
        for (const Ingredient& each : edit())
            m_larderNow->put(each);
        if (const auto* pending = found())
            for (const auto& [id, lot] : pending->lots)
                m_larderNow->put(lot);
    }
    return *m_larderNow;
}

const LarderEdit::Pending* LarderEdit::found() const {
    const auto at = m_pending.find(m_chosen);
    return at == m_pending.end() ? nullptr : &at->second;
}

LarderEdit::Pending& LarderEdit::pending() {
    const auto at = m_pending.find(m_chosen);
    if (at != m_pending.end()) return at->second;
    return m_pending.emplace(m_chosen, Pending{stored(), {}, {}, {}, false}).first->second;
}

bool LarderEdit::isPending() const {
    return found() != nullptr;
}
bool LarderEdit::isPending(IngredientId ingredient) const {
    return m_pending.count(ingredient) > 0;
}
bool LarderEdit::isNew() const {
    return found() != nullptr && found()->isNew;
}

preparation::LarderEdit LarderEdit::edit() const {
    const auto* pending = found();
    if (pending == nullptr) return {};
    preparation::LarderEdit all{pending->now};
    for (const auto& [id, other] : pending->beside)
        all.push_back(other);
    return all;
}

std::vector<larder::Lot> LarderEdit::lotsNow() const {
    std::vector<larder::Lot> all;
    if (const auto* pending = found())
        for (const auto& [id, lot] : pending->lots)
            all.push_back(lot);
    return all;
}

std::vector<Ingredient> LarderEdit::besideNow() const {
    auto all = edit();
    if (!all.empty()) all.erase(all.begin());
    return all;
}

// An edit that changes nothing is none.
void LarderEdit::dropIfSame() {
    const auto* pending = found();
    if (pending == nullptr || pending->isNew || !pending->typed.empty()) return;
    for (const auto& [id, other] : pending->beside)
        if (const auto* known = m_book.larder().find(id); known == nullptr || *known != other) return;
    const auto lots = m_book.larder().lots(m_chosen);
    for (const auto& [id, lot] : pending->lots)
        if (std::find(lots.begin(), lots.end(), lot) == lots.end()) return;
    if (pending->now == stored()) m_pending.erase(m_chosen);
}

void LarderEdit::set(Ingredient next) {
    if (!hasChosen() || next == now()) return;
    pending().now = std::move(next);
    told();
}

void LarderEdit::setLot(const larder::Lot& lot) {
    if (!hasChosen()) return;
    pending().lots[lot.id] = lot;
    told();
}

void LarderEdit::told() {
    dropIfSame();
    m_larderNow.reset();
    m_impact.reset();
    reread();
    if (isPending() && !preparation::refuses(m_findings))
        m_reading.ask(edit(), lotsNow());
    else
        m_reading.cancel();
    Q_EMIT changed();
    Q_EMIT impactChanged();
}

void LarderEdit::setBeside(const Ingredient& other) {
    pending().beside[other.id] = other;
    told();
}

void LarderEdit::setTyped(const QString& field, const QString& text) {
    if (typed(field) == text) return;
    auto& typed = pending().typed;
    if (text.isEmpty())
        typed.erase(field);
    else
        typed[field] = text;
    dropIfSame();
    Q_EMIT changed();
}

QString LarderEdit::typed(const QString& field) const {
    const auto* pending = found();
    if (pending == nullptr) return {};
    const auto at = pending->typed.find(field);
    return at == pending->typed.end() ? QString() : at->second;
}

bool LarderEdit::hasTyped(const QString& field) const {
    return !typed(field).isEmpty();
}

void LarderEdit::reread() {
    m_findings.clear();
    if (hasChosen())
        m_findings = preparation::findings(larderNow(), m_chosen, m_reading.preparations(), priceQuestion());
}

larder::PriceQuestion LarderEdit::priceQuestion() const {
    const auto& rules = m_book.houseRules();
    return {rules.currency, rules.pricesOn, &rules.rates};
}

bool LarderEdit::isReadingImpact() const {
    return isPending() && !m_impact && !preparation::refuses(m_findings) && m_reading.isBusy();
}

bool LarderEdit::canAccept() const {
    const auto* pending = found();
    return pending != nullptr && pending->typed.empty() && !preparation::refuses(m_findings) &&
           !m_book.book().isReadOnly();
}

bool LarderEdit::accept() {
    if (!canAccept()) return false;
    LarderCommand::States before, after;
    std::vector<IngredientId> added;
    for (const Ingredient& each : edit()) {
        const auto* known = m_book.larder().find(each.id);
        after.ingredients.push_back(asStored(each));
        const bool isOwn = known != nullptr && known != larder::Handbook::builtIn().find(each.id);
        if (isOwn)
            before.ingredients.push_back(asStored(*known));
        else
            added.push_back(each.id);
    }
    for (const auto& [id, lot] : found()->lots) {
        after.lots.push_back(lot);
        const auto stored = m_book.larder().lots(m_chosen);
        const auto was =
            std::find_if(stored.begin(), stored.end(), [&](const auto& l) { return l.id == lot.id; });
        if (was != stored.end())
            before.lots.push_back(*was);
        else
            before.lotsGone.push_back(lot.id);
    }
    const QString what = fromCore(now().name);
    if (!write(after.ingredients, {}, false, after.lots)) return false;
    m_undo.push(new LarderCommand(*this, std::move(before), std::move(after), std::move(added), what));
    Q_EMIT accepted(what);
    return true;
}

void LarderEdit::leave() {
    if (!isPending()) return;
    const bool wasNew = isNew();
    m_pending.erase(m_chosen);
    m_larderNow.reset();
    m_impact.reset();
    m_reading.cancel();
    if (wasNew) m_chosen = {};
    reread();
    if (wasNew) Q_EMIT chosenChanged();
    Q_EMIT changed();
    Q_EMIT impactChanged();
}

void LarderEdit::begin(larder::IngredientSort sort, std::optional<IngredientId> kind) {
    Ingredient fresh;
    fresh.id = IngredientId::random();
    fresh.sort = sort;
    fresh.kind = kind;
    // Until its own label is read, it is what its kind usually is.
    if (const auto* of = kind ? m_book.larder().find(*kind) : nullptr) fresh.facts = of->facts;
    m_pending.emplace(fresh.id, Pending{fresh, {}, {}, {}, true});
    choose(fresh.id);
}

bool LarderEdit::write(const preparation::LarderEdit& states, const std::vector<IngredientId>& gone,
                       bool keepPending, const std::vector<larder::Lot>& lots,
                       const std::vector<base::LotId>& lotsGone) {
    // What was pending is stored then, or no longer true; told by larderChanged. A failed write keeps it.
    auto pending = m_pending;
    if (!keepPending)
        for (const Ingredient& each : states)
            m_pending.erase(each.id);
    for (const IngredientId id : gone)
        m_pending.erase(id);
    try {
        m_book.saveIngredients(states, gone, lots, lotsGone);
        return true;
    } catch (const store::StoreError& error) {
        m_pending = std::move(pending);
        Q_EMIT failed(storeErrorSentence(error));
        return false;
    }
}

void LarderEdit::onLarderChanged() {
    m_larderNow.reset();
    m_impact.reset();
    m_uses.reset();
    if (hasChosen() && !isPending() && m_book.larder().find(m_chosen) == nullptr) m_chosen = {};
    reread();
    if (hasChosen()) {
        if (isPending())
            m_reading.ask(edit(), lotsNow());
        else
            m_reading.askUses(m_chosen);
    }
    Q_EMIT chosenChanged();
    Q_EMIT changed();
    Q_EMIT impactChanged();
}

std::string LarderEdit::today() const {
    return base::isoText(m_book.clock().now()).substr(0, 10);
}

} // namespace stillroom::ui
