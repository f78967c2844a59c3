// What is typed into the form, taken or refused.
#include "core/exchange/pack_size.h"
#include "core/exchange/stock_entry.h"
#include "core/exchange/terms_entry.h"
#include "core/larder/got_from.h"
#include "core/larder/stock_change.h"
#include "ui/panels/larder/entry_field.h"
#include "ui/panels/larder/terms_form.h"
#include "ui/panels/stock/stock_words.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/terms_words.h"

#include <QComboBox>

#include <algorithm>
#include <array>

namespace stillroom::ui {

using larder::Ingredient;
using larder::IngredientSort;

namespace {

constexpr std::array kUnits{larder::PackUnit::Piece, larder::PackUnit::Gram, larder::PackUnit::Ml};

// What a typed name means beyond doubt; nullptr: nothing, or several things.
const Ingredient* meant(const larder::Larder& larder, const QString& text) {
    const auto match = larder.match(toCore(text.trimmed()));
    const bool sure = match.quality == larder::MatchQuality::Exact ||
                      match.quality == larder::MatchQuality::Remembered ||
                      match.quality == larder::MatchQuality::Close;
    return sure ? larder.find(match.ingredient) : nullptr;
}

} // namespace

QStringList TermsForm::offered(const QString& text,
                               const std::function<bool(const Ingredient&)>& fits) const {
    QStringList names;
    if (m_edit == nullptr) return names;
    constexpr std::size_t kLookedAt = 60;
    constexpr int kOffered = 10;
    const auto& larder = m_edit->larderNow();
    for (const auto id : larder.search(toCore(text), kLookedAt)) {
        const auto* known = larder.find(id);
        if (known == nullptr || id == m_edit->chosen() || !fits(*known)) continue;
        if (names.size() < kOffered) names << fromCore(known->name);
    }
    return names;
}

std::optional<base::IngredientId> TermsForm::waitingFrom() const {
    const QString typed = typedOf("terms/from");
    if (typed.isEmpty() || m_edit->now().gotFrom) return std::nullopt;
    const auto* source = meant(m_edit->larderNow(), typed);
    return source != nullptr && source->id != m_edit->chosen() ? std::optional(source->id) : std::nullopt;
}

bool TermsForm::takeLost(Ingredient& next, const QString& text) {
    const auto percent = exchange::readPercent(text.trimmed().isEmpty() ? "0" : toCore(text));
    const auto used = percent ? larder::shareUsed(*percent) : std::nullopt;
    if (used) next.usableShare = *used;
    return used.has_value();
}

// A purchase without what one of it gives would be a wrong price: it waits for that.
bool TermsForm::takeFrom(Ingredient& next, const QString& text) {
    if (text.trimmed().isEmpty()) {
        next.gotFrom.reset();
        for (const char* key : {"terms/gives", "terms/share"})
            m_edit->setTyped(QString::fromLatin1(key), {});
        return true;
    }
    const auto* source = meant(m_edit->larderNow(), text);
    if (source == nullptr || !next.gotFrom) return false;
    next.gotFrom->of = source->id;
    return true;
}

bool TermsForm::takeGives(Ingredient& next, const QString& text) {
    const auto size = exchange::readPackSize(toCore(text));
    if (!size) return false;
    if (!next.gotFrom) {
        const auto from = waitingFrom();
        if (!from) return false;
        larder::GotFrom got;
        got.of = *from;
        got.ofUnit = kUnits[static_cast<std::size_t>(std::max(0, m_givenBy->currentIndex()))];
        got.priceShare = larder::shareLeft(m_edit->larderNow(), *from, next.id);
        next.gotFrom = got;
        m_edit->setTyped(QStringLiteral("terms/from"), {});
    }
    next.gotFrom->perUnit = size->amount;
    next.gotFrom->unit = size->unit;
    return true;
}

bool TermsForm::takeShare(Ingredient& next, const QString& text) {
    const auto percent = exchange::readPercent(toCore(text));
    const auto share = percent ? larder::shareOfPercent(*percent) : std::nullopt;
    if (!share || !next.gotFrom) return false;
    next.gotFrom->priceShare = *share;
    return true;
}

bool TermsForm::takePours(Ingredient& next, const QString& text) {
    if (text.trimmed().isEmpty()) {
        next.houseBottle.reset();
        return true;
    }
    const auto* poured = meant(m_edit->larderNow(), text);
    if (poured == nullptr || poured->sort == IngredientSort::Kind) return false;
    next.houseBottle = poured->id;
    return true;
}

// What a new thing is of decides what it is.
bool TermsForm::takeBottleOf(Ingredient& next, const QString& text) {
    const bool isNew = m_edit->isNew();
    if (text.trimmed().isEmpty()) {
        next.kind.reset();
        if (isNew) next.sort = IngredientSort::Kind;
        return true;
    }
    const auto* kind = meant(m_edit->larderNow(), text);
    if (kind == nullptr || kind->sort != IngredientSort::Kind || kind->id == next.id) return false;
    next.kind = kind->id;
    if (isNew) next.sort = IngredientSort::Bottle;
    // Until its own label is read, it is what its kind usually is.
    if (isNew && next.facts == larder::FactState{}) next.facts = kind->facts;
    return true;
}

void TermsForm::takePouredForIt(bool poured) {
    if (m_edit == nullptr || !m_edit->hasChosen() || !m_edit->now().kind) return;
    const auto* kind = m_edit->larderNow().find(*m_edit->now().kind);
    if (kind == nullptr) return;
    Ingredient other = *kind;
    other.houseBottle = poured ? std::optional(m_edit->chosen()) : std::nullopt;
    m_edit->setBeside(other);
}

bool TermsForm::takeKeeps(Ingredient& next, const QString& text) {
    if (text.trimmed().isEmpty()) {
        next.keepDays.reset();
        return true;
    }
    const auto days = exchange::readDays(toCore(text));
    if (days) next.keepDays = days;
    return days.has_value();
}

bool TermsForm::takeAmount(Ingredient& next, const QString& text) {
    if (text.trimmed().isEmpty()) {
        next.stock = larder::withAmount(next.stock, std::nullopt, next.stock.unit, m_edit->today());
        return true;
    }
    const auto entry = exchange::readStockAmount(toCore(text), next);
    if (entry) next.stock = larder::withAmount(next.stock, entry->amount, entry->unit, m_edit->today());
    return entry.has_value();
}

QStringList TermsForm::problems() const {
    QStringList all;
    if (m_edit == nullptr || !m_edit->hasChosen()) return all;
    const auto say = [&](const char* key, const QString& words) {
        const QString typed = typedOf(key);
        if (!typed.isEmpty()) all << words.arg(shortened(typed));
    };
    const auto named = [&](const char* key, const QString& wanted) {
        const QString typed = typedOf(key);
        if (typed.isEmpty()) return;
        const auto match = m_edit->larderNow().match(toCore(typed.trimmed()));
        const bool several = match.quality == larder::MatchQuality::Ambiguous;
        all << (several ? tr("“%1” is the name of several things: write more of it.").arg(shortened(typed))
                        : tr("“%1” is not in the larder: %2").arg(shortened(typed), wanted));
    };
    say("terms/lost", tr("Lost: “%1” is no share yet. Write per cent, as 15."));
    if (waitingFrom())
        all << tr("Say what one of %1 gives, as 30 ml; until then it counts for nothing.")
                   .arg(shortened(typedOf("terms/from")));
    else
        named("terms/from", tr("what is it got from?"));
    say("terms/gives", tr("“%1” is no yield yet. Write what one gives: 30 ml, 12 g or 1 piece."));
    say("terms/share", tr("“%1” is no share of a price yet. Write per cent, as 100."));
    named("terms/bottleOf", tr("name a kind, as London dry gin."));
    named("terms/pours", tr("name a bottle or something made here."));
    say("terms/keeps", tr("“%1” is no keeping time: whole days, from 1 on."));
    const QString amount = typedOf("terms/amount");
    if (!amount.isEmpty())
        if (const auto entry = exchange::readStockAmount(toCore(amount), m_edit->now()); !entry)
            all << tr("On the shelf: “%1”. %2").arg(shortened(amount), stockProblem(entry.error()));
    return all;
}

} // namespace stillroom::ui
