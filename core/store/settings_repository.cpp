#include "core/store/settings_repository.h"

#include "core/base/text.h"
#include "core/store/rate_repository.h"

#include <charconv>

namespace stillroom::store {

namespace {

double decimalFrom(const std::string& text, double fallback) {
    double value = 0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    return error == std::errc{} && stop == end ? value : fallback;
}

} // namespace

base::BookId SettingsRepository::bookId(Connection& connection) {
    Query query(connection, "SELECT id FROM book");
    if (!query.next())
        throw StoreError(StoreErrorKind::Damaged, 0, connection.path(),
                         "the workbook does not know its own id");
    return query.id<base::BookId>(0);
}

void SettingsRepository::createBook(int readableFrom) {
    const base::Instant now = m_book.clock.now();
    Query(m_book.connection, "INSERT INTO book (one, id, readable_from, created_ms, created_offset)"
                             " VALUES (1, ?, ?, ?, ?)")
        .with(m_book.id, readableFrom, now.utcMs, now.offsetMinutes)
        .run();
}

BookSettings SettingsRepository::load() const {
    BookSettings settings;
    if (const auto name = value("name")) settings.name = *name;
    if (const auto zone = value("zone")) settings.zone = *zone;
    if (const auto region = value("region")) settings.region = *region;
    if (const auto code = value("currency"))
        settings.rules.currency = quantity::Currency::fromCode(*code).value_or(settings.rules.currency);
    if (const auto grams = value("standard_drink_g"))
        settings.rules.standardDrinkGrams = decimalFrom(*grams, settings.rules.standardDrinkGrams);
    if (const auto grams = value("scale_step_g"))
        settings.scaleStepG = decimalFrom(*grams, settings.scaleStepG);
    if (const auto text = value("scales")) {
        auto scales = tasting::ScaleSet::fromCanonicalJson(*text);
        if (!scales)
            throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                             "the tasting scales cannot be read");
        settings.scales = *std::move(scales);
    }
    settings.rules.rates = RateRepository(m_book).all();
    if (const auto text = value("measures")) {
        const auto measures = quantity::HouseMeasures::fromJsonText(*text);
        if (!measures)
            throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                             "the house measures cannot be read");
        settings.rules.measures = *measures;
    }
    return settings;
}

void SettingsRepository::save(const BookSettings& settings) {
    setValue("name", settings.name);
    setValue("zone", settings.zone);
    setValue("region", settings.region);
    setValue("currency", std::string(settings.rules.currency.text()));
    setValue("standard_drink_g", base::shortestDecimal(settings.rules.standardDrinkGrams));
    setValue("scale_step_g", base::shortestDecimal(settings.scaleStepG));
    if (settings.scales.problem())
        throw StoreError(StoreErrorKind::Refused, 0, m_book.connection.path(),
                         "the tasting scales do not fit together");
    setValue("scales", settings.scales.canonicalJson());
    RateRepository(m_book).save(settings.rules.rates);
    setValue("measures", settings.rules.measures.toJsonText());
}

std::optional<std::string> SettingsRepository::value(const char* name) const {
    Query query(m_book.connection, "SELECT value FROM setting WHERE name = ?");
    query.with(name);
    return query.next() ? std::optional(query.text(0)) : std::nullopt;
}

void SettingsRepository::setValue(const char* name, const std::string& value) {
    Query(m_book.connection,
          "INSERT INTO setting (name, value, author, version) VALUES (?, ?, ?, 1)"
          " ON CONFLICT (name) DO UPDATE SET value = excluded.value, author = excluded.author,"
          " version = version + 1 WHERE value <> excluded.value")
        .with(name, value, m_book.id)
        .run();
}

} // namespace stillroom::store
