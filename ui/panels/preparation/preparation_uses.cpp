#include "ui/panels/preparation/preparation_uses.h"

#include "core/preparation/recompute.h"
#include "core/preparation/serves.h"
#include "core/store/where_used.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"
#include "ui/text/revision_label.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("PreparationUses", text);
}

// The spec in use of a drink, and what to call it.
struct InUse {
    spec::Spec spec;
    QString revision;
};
std::optional<InUse> inUse(WorkbookSession& book, base::DrinkId id) {
    const auto drink = book.book().drink(id);
    if (!drink || drink->binned) return std::nullopt;
    const auto house = drink->house ? book.book().revision(*drink->house) : std::nullopt;
    if (house) return InUse{house->spec, revisionLabel(drink->form, house->number)};
    const auto revisions = book.book().revisions(id);
    if (!revisions.empty())
        return InUse{revisions.back().spec, revisionLabel(drink->form, revisions.back().number)};
    const auto drafts = book.book().drafts(id);
    if (drafts.empty()) return std::nullopt;
    return InUse{drafts.front().spec, say("draft")};
}

const larder::Ingredient* madeIngredient(const larder::Larder& larder, base::DrinkId preparation) {
    for (const auto* ingredient : larder.all())
        if (ingredient->madeBy == preparation) return ingredient;
    return nullptr;
}

// The preparation, and the kinds that the house pours it for.
std::vector<base::IngredientId> pouredAs(const larder::Larder& larder, base::IngredientId id) {
    std::vector<base::IngredientId> all{id};
    for (const auto* ingredient : larder.all())
        if (ingredient->houseBottle == id) all.push_back(ingredient->id);
    return all;
}

// What a drink is poured by now, then its drafts, then its other revisions, newest first, that are among the
// places.
std::vector<InUse> versionsOf(WorkbookSession& book, base::DrinkId id,
                              const std::vector<store::IngredientUse>& places) {
    std::vector<InUse> versions;
    if (auto now = inUse(book, id)) versions.push_back(*std::move(now));
    for (const auto& place : places)
        if (place.drink == id && place.draft)
            if (auto draft = book.book().draft(*place.draft))
                versions.push_back({std::move(draft->spec), say("draft")});
    const auto* summary = book.summary(id);
    for (auto place = places.rbegin(); place != places.rend(); ++place)
        if (place->drink == id && place->revision && summary != nullptr)
            if (auto revision = book.book().revision(*place->revision))
                versions.push_back(
                    {std::move(revision->spec), revisionLabel(summary->form, revision->number)});
    return versions;
}

std::vector<PreparationUse> usesIn(WorkbookSession& book, base::DrinkId self, base::IngredientId id,
                                   const preparation::Specs& specs, const preparation::Made& made) {
    const auto& larder = book.larder();
    const auto named = pouredAs(larder, id);
    const preparation::Followers followers(larder, specs);
    const auto found = store::whereUsed(book.book(), id, followers.of({id}), followers);
    std::vector<PreparationUse> uses;
    for (const auto& each : found.by) {
        if (each.by == self) continue;
        PreparationUse use;
        use.drink = each.by;
        if (const auto* summary = book.summary(each.by)) use.name = fromCore(summary->name);
        bool direct = false;
        for (const auto& version : versionsOf(book, each.by, found.places)) {
            const spec::Bindings bindings(version.spec, larder, book.houseRules());
            const auto served = preparation::servesOf(version.spec, bindings, named, made);
            if (!served) continue;
            use.revision = version.revision;
            QStringList amounts;
            for (const auto line : served->lines)
                amounts << amountForEditing(version.spec.lines[line].poured);
            use.amount = amounts.join(u" + "_s);
            if (version.spec.serves > 1) use.amount += say(" for %1").arg(version.spec.serves);
            if (served->perServe) use.perServeMl = served->perServe->ml();
            direct = true;
            break;
        }
        if (!direct) {
            QStringList way;
            for (std::size_t i = 1; i < each.through.size(); ++i)
                if (const auto* step = larder.find(each.through[i])) way << fromCore(step->name);
            use.amount = way.isEmpty() ? say("instead of another") : say("in %1").arg(way.join(u" → "_s));
        }
        uses.push_back(std::move(use));
    }
    std::sort(uses.begin(), uses.end(),
              [](const auto& a, const auto& b) { return QString::localeAwareCompare(a.name, b.name) < 0; });
    return uses;
}

QString rateText(const larder::CostRate& rate) {
    const double major = static_cast<double>(rate.price.minor) /
                         std::pow(10.0, rate.price.currency.exponent) * rate.priceShare.toDouble() /
                         rate.usable.toDouble();
    const bool piece = rate.unit == larder::PackUnit::Piece;
    return currencySign(rate.price.currency) + u'\u202F' + number(piece ? major : 1000 * major, 2) +
           (piece                                 ? say(" each")
            : rate.unit == larder::PackUnit::Gram ? say(" a kg")
                                                  : say(" a litre"));
}

// "Honey went from € 17.80 a kg to € 19.60 a kg on 3 Nov. Ox Skerry costs € 0.02 more a serve now."
QString priceWordsOf(WorkbookSession& book, const spec::Spec& spec, const spec::Bindings& bindings,
                     const std::vector<PreparationUse>& uses, const std::string& today) {
    const auto change = preparation::lastPriceChange(spec, bindings, today);
    if (!change) return {};
    QString words = say("%1 went from %2 to %3 on %4.")
                        .arg(fromCore(spec.lines[change->line].name), rateText(change->step.before),
                             rateText(change->step.after), civilDayText(change->step.day, today));
    words[0] = words[0].toUpper();
    const auto before = preparation::daysAfter(change->step.day, -1);
    if (uses.empty() || !before) return words;
    const auto specs = preparationSpecs(book);
    const auto largest =
        std::max_element(uses.begin(), uses.end(), [](const PreparationUse& a, const PreparationUse& b) {
            return a.perServeMl.value_or(0) < b.perServeMl.value_or(0);
        });
    if (!largest->perServeMl) return words;
    const auto drink = inUse(book, largest->drink);
    if (!drink) return words;
    const auto cost = [&](const std::string& day) {
        return preparation::costOn(drink->spec, book.larder(), specs, book.houseRules(), day);
    };
    const auto was = cost(*before);
    const auto is = cost(change->step.day);
    if (was.bound != spec::Bound::Exact || is.bound != spec::Bound::Exact) return words;
    const double more = is.value - was.value;
    const auto sign = currencySign(book.settings().rules.currency);
    if (std::abs(more) < 0.005)
        return words + u' ' + say("%1 costs the same to the cent.").arg(largest->name);
    const QString sum = sign + u'\u202F' + number(std::abs(more), 2);
    return words + u' ' +
           (more > 0 ? say("%1 costs %2 more a serve since.") : say("%1 costs %2 less a serve since."))
               .arg(largest->name, sum);
}

QString circleWords(WorkbookSession& book, base::IngredientId id) {
    const auto order = preparation::makingOrder(preparationSpecs(book), book.larder());
    if (order) return {};
    const auto& path = order.error().path;
    if (std::find(path.begin(), path.end(), id) == path.end()) return {};
    QStringList names;
    for (const auto each : path)
        if (const auto* ingredient = book.larder().find(each)) names << fromCore(ingredient->name);
    return say("Made of itself: %1. Nothing is worked out along this circle; take it out of one of them.")
        .arg(names.join(u" → "_s));
}

} // namespace

preparation::Specs preparationSpecs(WorkbookSession& book) {
    preparation::Specs specs;
    for (const auto* ingredient : book.larder().all()) {
        if (!ingredient->madeBy) continue;
        if (auto now = inUse(book, *ingredient->madeBy)) specs.emplace(ingredient->id, std::move(now->spec));
    }
    return specs;
}

PreparationRecord recordOf(WorkbookSession& book, base::DrinkId preparation, const spec::Spec& spec,
                           const spec::Bindings& bindings, const std::optional<preparation::Made>& made) {
    PreparationRecord record;
    const auto* ingredient = madeIngredient(book.larder(), preparation);
    if (ingredient == nullptr) return record;
    record.ingredient = ingredient->id;
    record.keepDays = ingredient->keepDays;
    record.specs = preparationSpecs(book);
    for (const auto& lot : book.larder().lots(ingredient->id)) {
        if (lot.usedUp) continue;
        if (!record.lot || lot.id == ingredient->lotInUse) record.lot = lot;
    }
    record.circle = circleWords(book, ingredient->id);
    if (!made) return record;
    record.uses = usesIn(book, preparation, ingredient->id, record.specs, *made);
    record.priceWords = priceWordsOf(book, spec, bindings, record.uses, civilDay(book.clock().now()));
    return record;
}

} // namespace stillroom::ui
