#include "core/store/lot_repository.h"

namespace stillroom::store {

using larder::Lot;

namespace {

std::string measuredJson(const Lot& lot) {
    larder::FactState figures;
    figures.abvPercent = lot.abvPercent;
    figures.sugarGPerL = lot.sugarGPerL;
    figures.acidGPerL = lot.acidGPerL;
    figures.densityKgPerM3 = lot.densityKgPerM3;
    return figures.canonicalJson();
}

} // namespace

std::vector<Lot> LotRepository::all() const {
    Query query(m_book.connection, "SELECT id, ingredient, made_from, made_on, use_by, facts, got_ml, note,"
                                   " used_up FROM lot ORDER BY row");
    std::vector<Lot> lots;
    while (query.next()) {
        Lot lot;
        lot.id = query.id<base::LotId>(0);
        lot.ingredient = query.id<base::IngredientId>(1);
        lot.madeFrom = query.optionalId<base::RevisionId>(2);
        lot.on = query.text(3);
        lot.useBy = query.text(4);
        const auto figures = larder::FactState::fromCanonicalJson(query.text(5));
        if (!figures)
            throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                             "the figures of lot " + lot.id.text() + " cannot be read");
        lot.abvPercent = figures->abvPercent;
        lot.sugarGPerL = figures->sugarGPerL;
        lot.acidGPerL = figures->acidGPerL;
        lot.densityKgPerM3 = figures->densityKgPerM3;
        if (!query.isNull(6)) lot.gotMl = query.real(6);
        lot.note = query.text(7);
        lot.usedUp = query.integer(8) != 0;
        lots.push_back(std::move(lot));
    }
    return lots;
}

void LotRepository::save(const Lot& lot) {
    Query(m_book.connection,
          "INSERT INTO lot (id, ingredient, made_from, made_on, use_by, facts, got_ml, note, used_up, author,"
          " version) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 1) ON CONFLICT (id) DO UPDATE SET"
          " ingredient = excluded.ingredient, made_from = excluded.made_from, made_on = excluded.made_on,"
          " use_by = excluded.use_by, facts = excluded.facts, got_ml = excluded.got_ml, note = excluded.note,"
          " used_up = excluded.used_up, author = excluded.author, version = version + 1")
        .with(lot.id, lot.ingredient, lot.madeFrom, lot.on, lot.useBy, measuredJson(lot), lot.gotMl, lot.note,
              lot.usedUp, m_book.id)
        .run();
}

void LotRepository::takeBack(base::LotId lot) {
    Query(m_book.connection, "UPDATE ingredient SET lot_in_use = NULL WHERE lot_in_use = ?").with(lot).run();
    Query kept(m_book.connection, "SELECT 1 FROM revision_fact WHERE lot = ? LIMIT 1");
    kept.with(lot);
    const bool pinned = kept.next();
    Query(m_book.connection, pinned ? "UPDATE lot SET used_up = 1, version = version + 1 WHERE id = ?"
                                    : "DELETE FROM lot WHERE id = ?")
        .with(lot)
        .run();
}

} // namespace stillroom::store
