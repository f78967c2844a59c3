#include "core/store/rate_repository.h"

#include <algorithm>

namespace stillroom::store {

using larder::ExchangeRate;

std::vector<ExchangeRate> RateRepository::all() const {
    Query query(m_book.connection, "SELECT from_currency, to_currency, per_unit, day FROM exchange_rate"
                                   " WHERE dropped = 0 ORDER BY day, from_currency, to_currency");
    std::vector<ExchangeRate> rates;
    while (query.next()) {
        const auto from = quantity::Currency::fromCode(query.text(0));
        const auto to = quantity::Currency::fromCode(query.text(1));
        const auto perUnit = quantity::Rational::fromText(query.text(2));
        if (!from || !to || !perUnit)
            throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                             "the exchange rate of " + query.text(3) + " cannot be read");
        rates.push_back({*from, *to, *perUnit, query.text(3)});
    }
    return rates;
}

void RateRepository::save(const std::vector<ExchangeRate>& rates) {
    const auto stored = all();
    if (stored == rates) return;
    const auto isIn = [](const ExchangeRate& rate, const std::vector<ExchangeRate>& list) {
        return std::any_of(list.begin(), list.end(), [&](const ExchangeRate& other) {
            return other.from == rate.from && other.to == rate.to && other.on == rate.on;
        });
    };
    for (const ExchangeRate& rate : stored)
        if (!isIn(rate, rates))
            Query(m_book.connection,
                  "UPDATE exchange_rate SET dropped = 1, author = ?4, version = version + 1"
                  " WHERE from_currency = ?1 AND to_currency = ?2 AND day = ?3")
                .with(rate.from.text(), rate.to.text(), rate.on, m_book.id)
                .run();
    for (const ExchangeRate& rate : rates)
        Query(m_book.connection,
              "INSERT INTO exchange_rate (from_currency, to_currency, day, per_unit, author, version)"
              " VALUES (?, ?, ?, ?, ?, 1) ON CONFLICT (from_currency, to_currency, day) DO UPDATE SET"
              " per_unit = excluded.per_unit, dropped = 0, author = excluded.author, version = version + 1"
              " WHERE per_unit <> excluded.per_unit OR dropped <> 0")
            .with(rate.from.text(), rate.to.text(), rate.on, rate.perUnit.text(), m_book.id)
            .run();
}

} // namespace stillroom::store
