#include "tests/bench/big_book.h"

#include "core/store/book.h"
#include "core/store/drink_repository.h"
#include "core/store/larder_repository.h"
#include "core/store/migrator.h"
#include "core/store/opening.h"
#include "core/store/pins.h"
#include "core/store/revision_repository.h"
#include "core/store/settings_repository.h"
#include "core/store/tasting_repository.h"

#include <random>
#include <vector>

namespace stillroom::bench {

namespace {

constexpr int kDrinksPerTransaction = 60;
constexpr std::size_t kVocabulary = 20000; // as many different words as a long-kept book may hold

// Invented words, each always the same: 25 x 25 x 32 beginnings, middles and ends.
std::string inventedWord(std::size_t index) {
    constexpr const char* heads[]{"bra", "cor", "del", "fen", "gar", "hol", "ist", "jun", "kel",
                                  "lam", "mor", "nar", "ost", "pel", "qua", "ral", "sal", "tor",
                                  "und", "vel", "wil", "yar", "zin", "alb", "eri"};
    constexpr const char* tails[]{"",   "a",  "an", "ar", "d",   "de", "e",  "el", "en", "er", "et",
                                  "ey", "i",  "ic", "in", "ish", "l",  "le", "ly", "m",  "n",  "ne",
                                  "o",  "on", "or", "ow", "r",   "s",  "st", "t",  "um", "y"};
    std::string word = heads[index % 25];
    word += heads[index / 25 % 25];
    return word + tails[index / 625 % 32];
}

class BigBook {
  public:
    BigBook(store::Connection& connection, const BigBookSize& size)
        : m_size(size),
          m_book{connection, base::BookId::random(), m_clock} {}

    void begin() {
        store::runMigrations(m_book.connection, 0, store::schemaMigrations());
        store::SettingsRepository settings(m_book);
        store::BookSettings big;
        big.name = "a big book";
        settings.createBook(2);
        settings.save(big);
        m_taster = m_tastings.addPerson("M. Halloran", "MH");
        for (const larder::Ingredient* kind : m_larder.all())
            if (kind->facts.abvPercent || kind->facts.sugarGPerL) m_kinds.push_back(kind);
    }

    void addDrink(int index) {
        history::Drink drink;
        drink.id = base::DrinkId::random();
        drink.name = "Light " + std::to_string(index) + words(1);
        drink.menuName = "Menu " + std::to_string(index % 40);
        drink.brief = "the light that shows " + std::to_string(index) + " seconds in the minute";
        drink.created = m_clock.now();
        m_drinks.add(drink);
        spec::Spec spec = firstSpec();
        const auto draft = m_drinks.addDraft(drink.id, std::nullopt, spec);
        const auto facts = store::pinnedFacts(spec, m_larder, m_revisions);
        for (const spec::Line& line : spec.lines)
            m_revisions.addState(m_larder.poured(*line.ingredient)->facts);
        const spec::Bindings bindings(spec, m_larder, m_rules);
        std::optional<base::RevisionId> parent;
        const int count =
            (m_size.revisions * (index + 1)) / m_size.drinks - (m_size.revisions * index) / m_size.drinks;
        for (int number = 1; number <= count; ++number) {
            spec.lines[pick(spec.lines.size())].poured.amount =
                quantity::Amount::exact(static_cast<std::int64_t>(10 + pick(50)));
            parent = keep(drink.id, parent, number, spec, facts, bindings);
        }
        if (parent) m_drinks.setBasedOn(draft.id, *parent);
        m_drinks.saveSpec(draft.id, spec);
    }

  private:
    // Some words are in every second note and most in hardly any.
    std::string words(int count) {
        std::string text;
        for (int i = 0; i < count; ++i) {
            const double draw = static_cast<double>(m_words()) / static_cast<double>(std::mt19937::max());
            text += ' ';
            text += inventedWord(static_cast<std::size_t>(draw * draw * draw * (kVocabulary - 1)));
        }
        return text;
    }
    std::size_t pick(std::size_t count) { return static_cast<std::size_t>(m_random()) % count; }

    spec::Spec firstSpec() {
        spec::Spec spec;
        for (int i = 0; i < 6; ++i) {
            // Every tenth drink pours one and the same: 10,000 revisions of 100,000 name it.
            const larder::Ingredient* kind =
                i == 0 && m_spec++ % 10 == 0 ? m_kinds[0] : m_kinds[1 + pick(m_kinds.size() - 1)];
            spec::Line line;
            line.name = kind->name;
            line.ingredient = kind->id;
            line.poured.amount = quantity::Amount::exact(static_cast<std::int64_t>(10 + pick(50)));
            line.poured.measure = quantity::Measure::Ml;
            line.written = line.poured.amount.low.text() + " ml " + kind->name;
            spec.lines.push_back(line);
        }
        spec.method.text = "Shake hard with ice for ten seconds and strain into a cold glass.";
        spec.method.technique = spec::Technique::Shake;
        spec.glass = "coupe";
        return spec;
    }

    base::RevisionId keep(base::DrinkId drink, std::optional<base::RevisionId> parent, int number,
                          const spec::Spec& spec, const history::RevisionFacts& facts,
                          const spec::Bindings& bindings) {
        history::Revision revision;
        revision.id = base::RevisionId::random();
        revision.drink = drink;
        revision.parent = parent;
        revision.number = number;
        revision.reason = "one step drier, so that the last sip is as clear as the first:" + words(4);
        m_clock.advanceMs(60000);
        revision.kept = m_clock.now();
        revision.spec = spec;
        revision.facts = facts;
        revision.measures = m_rules.measures;
        revision.currency = m_rules.currency;
        revision.readings = spec::evaluate(spec, bindings);
        revision.hash = revision.contentHash();
        m_revisions.insert(revision);
        m_tastingsDue += static_cast<double>(m_size.tastings) / m_size.revisions;
        while (m_tastingsDue >= 1)
            taste(revision.id);
        return revision.id;
    }

    void taste(base::RevisionId revision) {
        m_tastingsDue -= 1;
        tasting::Tasting tasting;
        tasting.id = base::TastingId::random();
        tasting.revision = revision;
        tasting.taster = m_taster;
        tasting.when = m_clock.now();
        tasting.scores = tasting::Scores::ofFirst({9, 8, 6, 2, 11});
        tasting.note = "bright at first, then a little thin; the syrup comes late:" + words(8);
        ++m_tasted;
        if (m_size.measuredEvery > 0) {
            tasting.circumstances.glassAgeMinutes = m_tasted % 4;
            if (m_tasted % m_size.measuredEvery == 0)
                tasting.circumstances.measured.weight = quantity::Mass::fromGrams(300);
        }
        m_tastings.insert(tasting);
    }

    BigBookSize m_size;
    base::FixedClock m_clock{base::Instant{1700000000000, 0}};
    store::Book m_book;
    store::DrinkRepository m_drinks{m_book};
    store::RevisionRepository m_revisions{m_book};
    store::TastingRepository m_tastings{m_book};
    larder::Larder m_larder;
    spec::HouseRules m_rules;
    std::vector<const larder::Ingredient*> m_kinds;
    base::PersonId m_taster;
    std::mt19937 m_random{9};
    std::mt19937 m_words{10}; // apart, so that the same size still gives the same specs
    double m_tastingsDue = 0;
    int m_tasted = 0;
    int m_spec = 0; // how many have been begun
};

} // namespace

void makeBigBook(const std::string& path, const BigBookSize& size) {
    const auto connection = store::createFile(path, store::Place::Detect);
    BigBook book(*connection, size);
    connection->change("beginning a big book", store::Durability::Draft, [&] { book.begin(); });
    for (int at = 0; at < size.drinks;)
        connection->change("filling a big book", store::Durability::Draft, [&] {
            for (int i = 0; i < kDrinksPerTransaction && at < size.drinks; ++i)
                book.addDrink(at++);
        });
    connection->checkpoint();
}

std::string benchWord(std::size_t index) {
    return inventedWord(index);
}

} // namespace stillroom::bench
