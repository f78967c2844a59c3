#include "ui/session/draft_session.h"

#include "core/base/check.h"
#include "core/history/what_changed.h"
#include "core/preparation/label.h"
#include "core/preparation/part_keeping.h"
#include "core/spec/edit.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"

#include <algorithm>

namespace stillroom::ui {

namespace {

// A power cut may take what was typed after the last checkpoint: at most two seconds of it. The timer runs
// from the first edit that is not on the disk, so that typing on and on does not put the checkpoint off.
constexpr int kCheckpointMs = 1500;

// Bindings hold what each line names. Amounts may change under them.
bool bindsAlike(const spec::Spec& a, const spec::Spec& b) {
    return std::equal(a.lines.begin(), a.lines.end(), b.lines.begin(), b.lines.end(),
                      [](const spec::Line& x, const spec::Line& y) {
                          return x.ingredient == y.ingredient && x.name == y.name && x.juiceOf == y.juiceOf &&
                                 x.role == y.role && x.poured.measure == y.poured.measure &&
                                 x.retained.has_value() == y.retained.has_value();
                      });
}

DrinkWords wordsOf(const history::Drink& drink) {
    return {drink.name, drink.brief, drink.notes, drink.menuName, drink.credit, drink.after, drink.tags};
}

// The house's own rule for how long it keeps.
std::optional<int> keepDaysOf(const larder::Larder& larder, base::DrinkId preparation) {
    for (const auto* ingredient : larder.all())
        if (ingredient->madeBy == preparation) return ingredient->keepDays;
    return std::nullopt;
}

// How the preparations among the parts keep. Their lines are read only where there are any.
preparation::PartKeepings partsOf(const WorkbookSession& session, const spec::Spec& spec,
                                  const spec::Bindings& bindings) {
    bool nested = false;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const larder::Ingredient* poured = bindings.poured(i);
        nested |= poured != nullptr && poured->madeBy.has_value();
    }
    if (!nested) return {};
    return preparation::partKeepings(spec, bindings, session.larder(), session.book().preparations());
}

void makeOf(DraftReading& now, const spec::Bindings& bindings, const std::string& name,
            std::optional<int> keepDays, const preparation::PartKeepings& parts) {
    now.made = preparation::make(now.spec, bindings, preparation::yieldOf(now.spec));
    now.keeping = {};
    if (!now.made) return;
    now.keeping = preparation::keepingOf(name, now.spec, bindings, *now.made, keepDays, parts);
    now.cautions = preparation::cautionsOf(name, now.spec, bindings, *now.made);
}

} // namespace

RevisionReading readingOf(const history::Revision& revision, const larder::Larder& larder,
                          spec::HouseRules rules, const history::Drink& drink) {
    rules.measures = revision.measures;
    RevisionReading reading;
    reading.bindings = std::make_unique<spec::Bindings>(revision.spec, larder, rules);
    reading.now.spec = revision.spec;
    reading.now.readings = revision.readings;
    reading.now.contributions = spec::contributions(revision.spec, *reading.bindings);
    reading.now.filling = spec::glassFilling(revision.spec, *reading.bindings);
    reading.now.gaps = spec::gaps(revision.spec, *reading.bindings);
    reading.now.cautions = spec::cautions(revision.spec, *reading.bindings, revision.readings);
    reading.now.allergens = spec::allergens(revision.spec, *reading.bindings);
    reading.now.words.name = drink.name;
    if (drink.form == history::DrinkForm::Preparation)
        makeOf(reading.now, *reading.bindings, drink.name, keepDaysOf(larder, drink.id), {});
    return reading;
}

DraftSession::DraftSession(WorkbookSession& book, base::DraftId draft, QObject* parent)
    : QObject(parent),
      m_book(book) {
    const auto stored = book.book().draft(draft);
    if (!stored)
        throw store::StoreError(store::StoreErrorKind::NotFound, 0, book.book().path(), "no such draft");
    m_draft = *stored;
    const auto drink = book.book().drink(m_draft.drink);
    if (!drink)
        throw store::StoreError(store::StoreErrorKind::NotFound, 0, book.book().path(), "no such drink");
    m_drink = *drink;
    m_now.spec = m_draft.spec;
    m_now.words = wordsOf(m_drink);
    if (m_draft.basedOn) m_base = book.book().revision(*m_draft.basedOn);
    rebind();
    evaluate();
    m_checkpoint.setSingleShot(true);
    m_checkpoint.setInterval(kCheckpointMs);
    connect(&m_checkpoint, &QTimer::timeout, this, &DraftSession::flush);
    connect(&book, &WorkbookSession::larderChanged, this, &DraftSession::reread);
    connect(&book, &WorkbookSession::settingsChanged, this, &DraftSession::reread);
    connect(&book, &WorkbookSession::benchChanged, this, &DraftSession::reread);
}

DraftSession::~DraftSession() {
    disconnect();
    flush();
}

bool DraftSession::apply(spec::Spec next, const QString& label, int mergeKey, QObject* origin) {
    STILLROOM_CHECK(!m_telling, return false);
    if (next == m_now.spec || closesCircle(next)) return false;
    m_undo.push(new EditCommand(*this, {m_now.spec, m_now.words}, {std::move(next), m_now.words}, label,
                                mergeKey, origin));
    return true;
}

bool DraftSession::applyWords(DrinkWords next, const QString& label, int mergeKey, QObject* origin) {
    STILLROOM_CHECK(!m_telling, return false);
    if (next == m_now.words) return false;
    m_undo.push(new EditCommand(*this, {m_now.spec, m_now.words}, {m_now.spec, std::move(next)}, label,
                                mergeKey, origin));
    return true;
}

bool DraftSession::applyChoice(std::size_t line, const std::string& name, base::IngredientId chosen,
                               const QString& label, QObject* origin) {
    STILLROOM_CHECK(!m_telling, return false);
    if (line >= m_now.spec.lines.size()) return false;
    spec::Line next = m_now.spec.lines[line];
    next.name = name;
    next.ingredient = chosen;
    const auto taken = m_book.larder().match(name);
    const bool known = taken.ingredient == chosen && (taken.quality == larder::MatchQuality::Exact ||
                                                      taken.quality == larder::MatchQuality::Remembered);
    if (known) return apply(spec::withLineReplaced(m_now.spec, line, next), label, kNoMerge, origin);
    spec::Spec with = spec::withLineReplaced(m_now.spec, line, next);
    if (closesCircle(with)) return false;
    auto* step = new EditCommand(*this, {m_now.spec, m_now.words}, {std::move(with), m_now.words}, label,
                                 kNoMerge, origin);
    step->setMeaning({name, m_book.nameMeaning(name), chosen});
    m_undo.push(step);
    return true;
}

void DraftSession::installMeaning(const std::string& written, std::optional<base::IngredientId> ingredient) {
    try {
        m_book.setNameMeaning(written, ingredient);
    } catch (const store::StoreError& error) {
        Q_EMIT saveFailed(storeErrorSentence(error));
    }
}

void DraftSession::install(const DraftContent& content, QObject* origin) {
    const DraftReading before = m_now;
    const bool specDiffers = content.spec != m_now.spec;
    const bool wordsDiffer = content.words != m_now.words;
    m_now.spec = content.spec;
    m_now.words = content.words;
    if (specDiffers) {
        if (!bindsAlike(before.spec, m_now.spec)) rebind();
        evaluate();
    } else if (wordsDiffer && before.words.name != m_now.words.name) {
        readMade(); // "… cordial": what a thing is called says what it is
    }
    autosave(content, specDiffers, wordsDiffer);
    tell(before, origin);
}

void DraftSession::rebind() {
    m_bindings = std::make_unique<spec::Bindings>(m_now.spec, m_book.larder(), m_book.houseRules());
    ++m_bindingsBuilt;
    findSwaps();
}

// What lines name changes with the bindings, and so does what is poured for them.
void DraftSession::findSwaps() {
    m_now.swaps.clear();
    if (!m_base) return;
    std::map<std::string, larder::FactState> states;
    const auto stateOf = [&](const std::string& hash) -> const larder::FactState* {
        if (const auto known = states.find(hash); known != states.end()) return &known->second;
        auto state = m_book.book().factState(hash);
        return state ? &states.emplace(hash, std::move(*state)).first->second : nullptr;
    };
    // States of today may not be in the book yet: the larder has them.
    for (const auto& line : m_now.spec.lines)
        if (const auto* poured = line.ingredient ? m_book.larder().poured(*line.ingredient) : nullptr)
            states.emplace(poured->facts.hash(), poured->facts);
    try {
        m_now.swaps = history::factSwaps(m_base->spec, m_base->facts, m_now.spec,
                                         history::factsOf(m_now.spec, m_book.larder()), stateOf);
    } catch (const store::StoreError& error) {
        Q_EMIT saveFailed(storeErrorSentence(error));
    }
}

void DraftSession::evaluate() {
    m_now.readings = spec::evaluateWithTemperatures(m_now.spec, *m_bindings);
    ++m_evaluations;
    m_now.contributions = spec::contributions(m_now.spec, *m_bindings);
    m_now.filling = spec::glassFilling(m_now.spec, *m_bindings);
    m_now.gaps = spec::gaps(m_now.spec, *m_bindings);
    m_now.cautions = spec::cautions(m_now.spec, *m_bindings, m_now.readings);
    m_now.allergens = spec::allergens(m_now.spec, *m_bindings);
    warnOfPast();
    readMade();
    m_now.difference = m_base
                           ? history::difference(m_base->spec, m_now.spec, m_book.settings().rules.measures)
                           : history::SpecDifference{};
}

// Only what a line names can close one.
bool DraftSession::closesCircle(const spec::Spec& next) {
    if (m_drink.form != history::DrinkForm::Preparation || bindsAlike(m_now.spec, next)) return false;
    try {
        auto specs = m_book.book().preparations(); // another draft may have moved since
        const auto circle = preparation::circleWith(m_drink.id, next, specs, m_book.larder());
        // One that stood there before is not this edit's doing, and must not keep it from being mended.
        if (!circle || preparation::circleWith(m_drink.id, m_now.spec, specs, m_book.larder())) return false;
        for (auto& [id, stands] : specs)
            if (const auto* known = m_book.larder().find(id); known != nullptr && known->madeBy == m_drink.id)
                stands = next;
        throw store::StoreError(store::StoreErrorKind::Circle, 0, m_book.book().path(),
                                preparation::pathOf(*circle, specs, m_book.larder()));
    } catch (const store::StoreError& error) {
        Sentence sentence = storeErrorSentence(error);
        if (error.kind() == store::StoreErrorKind::Circle)
            sentence.consequence = tr("That edit was left out; the draft is as it was.");
        Q_EMIT saveFailed(sentence);
        return true;
    }
}

// A preparation's own page says it of its parts.
void DraftSession::warnOfPast() {
    if (m_drink.form != history::DrinkForm::Drink) return;
    try {
        if (!m_specs) m_specs = m_book.book().preparations();
        if (!m_dates) m_dates.emplace(m_book.larder(), *m_specs, m_book.settings().rules);
    } catch (const store::StoreError& error) {
        Q_EMIT saveFailed(storeErrorSentence(error));
        return;
    }
    const std::string today = base::isoText(m_book.clock().now()).substr(0, 10);
    m_now.cautions =
        preparation::withPast(std::move(m_now.cautions), m_dates->past(m_now.spec, *m_bindings, today));
}

void DraftSession::readMade() {
    if (m_drink.form != history::DrinkForm::Preparation) return;
    makeOf(m_now, *m_bindings, m_now.words.name, keepDaysOf(m_book.larder(), m_drink.id),
           partsOf(m_book, m_now.spec, *m_bindings));
}

void DraftSession::autosave(const DraftContent& content, bool specDiffers, bool wordsDiffer) {
    try {
        if (specDiffers) m_book.book().saveDraft(m_draft.id, content.spec);
        if (wordsDiffer) {
            history::Drink next = m_drink;
            next.name = content.words.name;
            next.brief = content.words.brief;
            next.notes = content.words.notes;
            next.menuName = content.words.menuName;
            next.credit = content.words.credit;
            next.after = content.words.after;
            next.tags = content.words.tags;
            m_book.saveDrink(next);
            m_drink = next;
        }
    } catch (const store::StoreError& error) {
        Q_EMIT saveFailed(storeErrorSentence(error));
        return;
    }
    m_savedAt = m_book.clock().now();
    m_unflushed = true;
    if (!m_checkpoint.isActive()) m_checkpoint.start();
    Q_EMIT saved();
}

void DraftSession::tell(const DraftReading& before, QObject* origin) {
    m_telling = true;
    Q_EMIT changed(DraftChange{before, m_now, origin});
    m_telling = false;
    const bool differs = m_base ? m_base->spec != m_now.spec : !m_now.spec.lines.empty();
    m_book.noteDraft(m_drink.id, differs, m_now.readings[spec::Stage::Served][spec::Quantity::Strength]);
}

void DraftSession::reread() {
    const DraftReading before = m_now;
    m_specs.reset();
    m_dates.reset();
    rebind();
    evaluate();
    tell(before, nullptr);
}

tl::expected<history::Revision, store::KeepRefusal> DraftSession::keep(const QString& reason) {
    auto kept = m_book.book().keep(m_draft.id, toCore(reason));
    if (!kept) return kept;
    m_base = *kept;
    m_draft.basedOn = kept->id;
    m_savedAt = m_book.clock().now();
    m_undo.setClean();
    const DraftReading before = m_now;
    m_now.difference = {};
    findSwaps();
    tell(before, nullptr);
    m_book.reloadShelf();
    if (m_drink.form == history::DrinkForm::Preparation) m_book.reloadLarder();
    const auto& dilution = kept->spec.method.dilution;
    if (dilution && dilution->origin == spec::DilutionOrigin::Measured) m_book.reloadBench();
    Q_EMIT baseChanged();
    Q_EMIT saved();
    return kept;
}

bool DraftSession::differsFromBase() const {
    return !m_base || m_base->spec != m_now.spec || !m_now.swaps.empty() ||
           m_base->measures != m_book.settings().rules.measures;
}

QString DraftSession::changesInWords() const {
    if (!m_base) return {};
    return fromCore(history::changesInWords(m_now.difference, m_base->spec, m_now.spec, m_now.swaps));
}

bool DraftSession::restore(const history::Revision& revision) {
    return apply(revision.spec, tr("Restore %1").arg(revisionLabel(m_drink.form, revision.number)));
}

bool DraftSession::wordsStand() const {
    const auto drink = m_book.book().drink(m_drink.id);
    return drink && wordsOf(*drink) == m_now.words;
}

void DraftSession::reloadDrink() {
    if (const auto drink = m_book.book().drink(m_drink.id)) m_drink = *drink;
    Q_EMIT baseChanged();
}

void DraftSession::reloadDraft() {
    if (const auto stored = m_book.book().draft(m_draft.id)) {
        m_draft.name = stored->name;
        m_draft.setAside = stored->setAside;
    }
    Q_EMIT baseChanged();
}

void DraftSession::flush() {
    m_checkpoint.stop();
    if (!m_unflushed) return;
    m_unflushed = false;
    try {
        m_book.book().flush();
    } catch (const store::StoreError& error) {
        m_unflushed = true;
        Q_EMIT saveFailed(storeErrorSentence(error));
    }
}

} // namespace stillroom::ui
