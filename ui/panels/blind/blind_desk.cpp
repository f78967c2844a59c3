#include "ui/panels/blind/blind_desk.h"

#include "core/history/diff.h"
#include "core/history/fact_swap.h"
#include "core/history/what_changed.h"
#include "core/store/panel_safety.h"
#include "core/tasting/panel_sheets.h"
#include "ui/panels/tasting/tasting_sheet.h"
#include "ui/session/desk.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <algorithm>
#include <map>
#include <set>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::PanelError;
using tasting::PanelKind;

namespace {

QString errorWords(PanelError error, PanelKind kind) {
    const bool two = kind <= PanelKind::PairedPreference;
    switch (error) {
    case PanelError::ProductCount:
        return two ? QObject::tr("Choose the two revisions that are compared.")
                   : QObject::tr("Choose two to eight revisions.");
    case PanelError::NoTasters:
        return QObject::tr("Tick who tastes, or add somebody.");
    case PanelError::TooManyCups:
        return QObject::tr("There are more cups than plain three-digit codes, 633. Pour for fewer tasters.");
    default:
        return QObject::tr("These choices do not fit together (%1).")
            .arg(fromCore(tasting::panelErrorId(error)));
    }
}

tasting::PanelDesign designOf(const BlindWish& wish, std::uint64_t seed) {
    tasting::PanelDesign design;
    design.kind = wish.kind;
    if (asksAttribute(wish.kind)) design.attribute = toCore(wish.attribute.simplified());
    design.products = wish.products;
    design.tasters = wish.tasters;
    design.alpha = wish.alpha;
    design.seed = seed;
    design.share = wish.share;
    if (wish.foretold && wish.kind == PanelKind::PairedDifference) design.foretold = {0};
    if (wish.foretold && wish.kind == PanelKind::Ranking)
        for (std::size_t i = 0; i < design.products.size(); ++i)
            design.foretold.push_back(i);
    return design;
}

} // namespace

bool asksAttribute(PanelKind kind) {
    return kind == PanelKind::PairedDifference || kind == PanelKind::Ranking ||
           kind == PanelKind::JustAboutRight || kind == PanelKind::Intensity;
}

QString stateWords(const store::PanelSummary& summary) {
    if (summary.binned) return QObject::tr("in the bin");
    switch (summary.state) {
    case tasting::PanelState::Designed:
        return QObject::tr("planned for %1").arg(summary.tasters);
    case tasting::PanelState::Pouring:
        return QObject::tr("pouring, %1 of %2 in").arg(summary.answered).arg(summary.tasters);
    case tasting::PanelState::Closed:
        return QObject::tr("closed, %1 of %2").arg(summary.answered).arg(summary.tasters);
    }
    return {};
}

QString personName(const tasting::Person& person) {
    if (!person.name.empty()) return fromCore(person.name);
    return person.initials.empty() ? QObject::tr("somebody") : fromCore(person.initials);
}

BlindDesk::BlindDesk(Desk& desk, QObject* parent) : QObject(parent), m_desk(desk) {
    connect(&desk, &Desk::bookChanged, this, [this] {
        m_sessions.clear();
        m_wish = {};
        m_started = false;
    });
}

bool BlindDesk::isWritable() const {
    return m_desk.book() != nullptr && !m_desk.book()->book().isReadOnly();
}

bool BlindDesk::reload() {
    if (m_desk.book() == nullptr) return false;
    const bool read = m_desk.attempt([&] { m_sessions = m_desk.book()->book().panels(); });
    if (read) Q_EMIT sessionsChanged();
    return read;
}

QString BlindDesk::productName(base::RevisionId id) {
    return sampleName(id).whole();
}

SampleName BlindDesk::sampleName(base::RevisionId id) {
    SampleName name{tr("a revision that is gone"), {}};
    m_desk.attempt([&] {
        const auto& book = m_desk.book()->book();
        const auto revision = book.revision(id);
        if (!revision) return;
        const auto drink = book.drink(revision->drink);
        name.drink = drink && !drink->name.empty() ? fromCore(drink->name) : tr("Untitled");
        name.revision = revisionLabel(drink ? drink->form : history::DrinkForm::Drink, revision->number);
    });
    return name;
}

std::optional<BlindSession> BlindDesk::session(base::PanelId id) {
    const auto found = std::find_if(m_sessions.begin(), m_sessions.end(),
                                    [&](const store::PanelSummary& each) { return each.id == id; });
    if (found == m_sessions.end()) return std::nullopt;
    std::optional<BlindSession> session;
    m_desk.attempt([&] {
        const auto& book = m_desk.book()->book();
        const auto panel = book.panel(id);
        if (!panel) return;
        session = BlindSession{*found, *panel, {}, {}};
        session->names.session = found->name;
        session->names.cautions = tasting::inWords(store::panelSafety(book, *panel));
        for (const auto& product : panel->design.products) {
            session->samples.push_back(sampleName(product));
            session->names.products.push_back(toCore(session->samples.back().whole()));
        }
        const auto known = book.people();
        for (const auto& taster : panel->design.tasters) {
            const auto person = std::find_if(known.begin(), known.end(),
                                             [&](const tasting::Person& each) { return each.id == taster; });
            session->names.tasters.push_back(person == known.end() ? toCore(tr("somebody"))
                                                                   : toCore(personName(*person)));
        }
    });
    return session;
}

void BlindDesk::startWish() {
    if (m_started || m_desk.book() == nullptr) return;
    m_started = true;
    m_desk.attempt([&] {
        const auto& book = m_desk.book()->book();
        if (const auto* draft = m_desk.draft()) {
            const auto revisions = book.revisions(draft->drink().id);
            const auto from = revisions.size() > 2 ? revisions.size() - 2 : 0;
            for (auto i = from; i < revisions.size(); ++i)
                m_wish.products.push_back(revisions[i].id);
        }
        if (m_sessions.empty()) return;
        if (const auto last = book.panel(m_sessions.front().id)) {
            const auto known = book.people();
            for (const auto& taster : last->design.tasters)
                if (std::any_of(known.begin(), known.end(), [&](const tasting::Person& person) {
                        return person.id == taster && !(person.name.empty() && person.initials.empty());
                    }))
                    m_wish.tasters.push_back(taster);
        }
    });
}

QString BlindDesk::usualName() const {
    const QString kind = fromCore(tasting::kindName(m_wish.kind));
    if (m_desk.book() == nullptr) return kind;
    const auto now = m_desk.book()->clock().now();
    return u"%1, %2"_s.arg(kind, dayText(now, now));
}

tl::expected<tasting::PanelPlan, QString> BlindDesk::plan() const {
    tasting::PanelWish wish;
    wish.kind = m_wish.kind;
    wish.tasters = static_cast<int>(m_wish.tasters.size());
    wish.products = static_cast<int>(m_wish.products.size());
    wish.foretold =
        m_wish.foretold && (m_wish.kind == PanelKind::PairedDifference || m_wish.kind == PanelKind::Ranking);
    wish.alpha = m_wish.alpha;
    wish.share = m_wish.share;
    const auto made = tasting::planPanel(wish);
    if (!made) return tl::unexpected(errorWords(made.error(), m_wish.kind));
    return *made;
}

std::optional<QString> BlindDesk::problem() const {
    const auto dealt = tasting::designPanel(designOf(m_wish, 0));
    if (dealt) return std::nullopt;
    return errorWords(dealt.error(), m_wish.kind);
}

tl::expected<base::PanelId, QString> BlindDesk::deal() {
    if (!isWritable()) return tl::unexpected(tr("The book is open to read only."));
    std::uint64_t seed = tasting::newSeed();
    if (const QString typed = m_wish.seed.trimmed(); !typed.isEmpty()) {
        bool read = false;
        seed = typed.toULongLong(&read);
        if (!read) return tl::unexpected(tr("The seed must be a whole number, or empty to draw one."));
    }
    const auto design = designOf(m_wish, seed);
    const auto dealt = tasting::designPanel(design);
    if (!dealt) return tl::unexpected(errorWords(dealt.error(), design.kind));
    const QString name = m_wish.name.simplified().isEmpty() ? usualName() : m_wish.name.simplified();
    tl::expected<base::PanelId, QString> id = tl::unexpected(tr("The session could not be saved."));
    m_desk.attempt([&] {
        const auto added = m_desk.book()->book().addPanel(toCore(name), *dealt);
        if (added)
            id = *added;
        else
            id = tl::unexpected(errorWords(added.error(), design.kind));
    });
    if (!id) return id;
    // The next one begins with the same people and products, under a name of its own.
    m_wish.name.clear();
    m_wish.seed.clear();
    reload();
    return id;
}

QString BlindDesk::whatDiffers(const std::vector<base::RevisionId>& products) {
    if (products.size() != 2) return {};
    QString words;
    m_desk.attempt([&] {
        const auto& book = m_desk.book()->book();
        auto earlier = book.revision(products[0]);
        auto later = book.revision(products[1]);
        if (!earlier || !later || earlier->drink != later->drink) return;
        if (later->number < earlier->number) std::swap(earlier, later);
        std::map<std::string, std::optional<larder::FactState>> states;
        const auto swaps =
            history::factSwaps(earlier->spec, earlier->facts, later->spec, later->facts,
                               [&](const std::string& hash) -> const larder::FactState* {
                                   const auto& state =
                                       states.try_emplace(hash, book.factState(hash)).first->second;
                                   return state ? &*state : nullptr;
                               });
        const auto difference = history::difference(earlier->spec, later->spec, later->measures);
        const auto things = history::changedThings(difference, earlier->spec, later->spec, swaps);
        if (things.empty()) return;
        const auto drink = book.drink(earlier->drink);
        const auto form = drink ? drink->form : history::DrinkForm::Drink;
        const QString between =
            tr("From %1 to %2").arg(revisionLabel(form, earlier->number), revisionLabel(form, later->number));
        if (const auto one = history::singleChange(things)) {
            words = tr("%1 one thing changed, %2. If tasters tell them apart, it was that.")
                        .arg(between, fromCore(one->name));
            return;
        }
        QStringList names;
        for (const auto& thing : things)
            names << fromCore(thing.name);
        words = tr("%1 %2 things changed at once: %3. What tasters find cannot be laid to one of them.")
                    .arg(between)
                    .arg(names.size())
                    .arg(names.join(u", "_s));
    });
    return words;
}

std::vector<tasting::Person> BlindDesk::people() {
    std::vector<tasting::Person> known;
    m_desk.attempt([&] {
        for (auto& person : m_desk.book()->book().people())
            if (!person.name.empty() || !person.initials.empty()) known.push_back(std::move(person));
    });
    return known;
}

std::optional<base::PersonId> BlindDesk::addPerson(const QString& name) {
    const QString typed = name.simplified();
    if (typed.isEmpty() || !isWritable()) return std::nullopt;
    if (const auto known = personFor(people(), typed)) return known;
    std::optional<base::PersonId> id;
    m_desk.attempt([&] { id = m_desk.book()->book().addPerson(toCore(typed), toCore(initialsFrom(typed))); });
    return id;
}

bool BlindDesk::write(const std::function<tl::expected<void, PanelError>()>& step) {
    if (!isWritable()) return false;
    bool done = false;
    m_desk.attempt([&] { done = step().has_value(); });
    if (done) reload();
    return done;
}

bool BlindDesk::startPouring(base::PanelId panel) {
    return write([&] { return m_desk.book()->book().startPouring(panel); });
}

bool BlindDesk::answer(base::PanelId panel, base::PersonId taster, const tasting::Answer& answer) {
    return write([&] { return m_desk.book()->book().addAnswer(panel, taster, answer); });
}

bool BlindDesk::close(base::PanelId panel) {
    return write([&] { return m_desk.book()->book().closePanel(panel); });
}

bool BlindDesk::rename(base::PanelId panel, const QString& name) {
    if (name.simplified().isEmpty()) return false;
    return write([&]() -> tl::expected<void, PanelError> {
        m_desk.book()->book().renamePanel(panel, toCore(name.simplified()));
        return {};
    });
}

bool BlindDesk::bin(base::PanelId panel, bool binned) {
    return write([&]() -> tl::expected<void, PanelError> {
        m_desk.book()->book().binPanel(panel, binned);
        return {};
    });
}

QString BlindDesk::whenText(const base::Instant& instant) const {
    const auto now = m_desk.book()->clock().now();
    return u"%1, %2"_s.arg(dayText(instant, now), timeText(instant).left(5));
}

} // namespace stillroom::ui
