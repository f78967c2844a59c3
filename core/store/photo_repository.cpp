#include "core/store/photo_repository.h"

#include "core/store/stored.h"

namespace stillroom::store {

namespace {

#define STILLROOM_PHOTO                                                                                      \
    "SELECT l.id, l.revision, l.tasting, p.mime, p.width, p.height, p.size, p.hash, l.caption, l.linked_ms," \
    " l.linked_offset, l.hidden FROM photo_link l JOIN photo p ON p.hash = l.photo"
constexpr const char* kSelectOfRevision =
    STILLROOM_PHOTO " WHERE l.revision = ?1 AND l.hidden = ?2 ORDER BY l.row";
constexpr const char* kSelectOfTasting =
    "WITH RECURSIVE said (id) AS (SELECT ?1 UNION SELECT t.amends FROM said JOIN tasting t ON t.id = said.id"
    " WHERE t.amends IS NOT NULL) " STILLROOM_PHOTO
    " WHERE l.tasting IN (SELECT id FROM said) AND l.hidden = ?2 ORDER BY l.row";
constexpr const char* kSelectAll = STILLROOM_PHOTO " ORDER BY l.row";
#undef STILLROOM_PHOTO

AttachedPhoto photoFrom(const Query& row) {
    AttachedPhoto photo;
    photo.id = row.id<base::PhotoLinkId>(0);
    if (row.isNull(1))
        photo.of = row.id<base::TastingId>(2);
    else
        photo.of = row.id<base::RevisionId>(1);
    photo.info.kind = tasting::photoKindFromMime(row.text(3)).value_or(tasting::PhotoKind::Jpeg);
    photo.info.width = row.smallInteger(4);
    photo.info.height = row.smallInteger(5);
    photo.info.size = static_cast<std::size_t>(row.integer(6));
    photo.info.hash = row.hex(7);
    photo.caption = row.text(8);
    photo.when = {row.integer(9), row.smallInteger(10)};
    photo.hidden = row.integer(11) != 0;
    return photo;
}

std::vector<AttachedPhoto> photosFrom(Query& query) {
    std::vector<AttachedPhoto> found;
    while (query.next())
        found.push_back(photoFrom(query));
    return found;
}

} // namespace

void PhotoRepository::store(const tasting::PhotoInfo& info, const std::string& bytes) {
    {
        Query known(m_book.connection, "SELECT 1 FROM photo WHERE hash = ?");
        known.with(Digest::ofHex(info.hash));
        if (known.next()) return;
    }
    const base::Instant now = m_book.clock.now();
    Query(m_book.connection,
          "INSERT INTO photo (hash, mime, width, height, size, added_ms, added_offset, author, bytes)"
          " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(Digest::ofHex(info.hash), tasting::photoMime(info.kind), info.width, info.height,
              static_cast<std::int64_t>(info.size), now.utcMs, now.offsetMinutes, m_book.id, Bytes{bytes})
        .run();
}

AttachedPhoto PhotoRepository::attach(const PhotoOf& of, const tasting::PhotoInfo& info,
                                      const std::string& caption) {
    AttachedPhoto photo{base::PhotoLinkId::random(), of, info, caption, m_book.clock.now(), false};
    std::optional<base::RevisionId> revision;
    std::optional<base::TastingId> tasting;
    if (const auto* id = std::get_if<base::RevisionId>(&of))
        revision = *id;
    else
        tasting = std::get<base::TastingId>(of);
    Query(m_book.connection,
          "INSERT INTO photo_link (id, photo, revision, tasting, caption, linked_ms, linked_offset, author)"
          " VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
        .with(photo.id, Digest::ofHex(info.hash), revision, tasting, caption, photo.when.utcMs,
              photo.when.offsetMinutes, m_book.id)
        .run();
    return photo;
}

void PhotoRepository::hide(base::PhotoLinkId photo, bool hidden) {
    {
        Query known(m_book.connection, "SELECT 1 FROM photo_link WHERE id = ?");
        known.with(photo);
        if (!known.next()) throw notFound(m_book.connection, "photo", photo.text());
    }
    Query(m_book.connection, "UPDATE photo_link SET hidden = ?2, hidden_author = ?3,"
                             " hidden_version = hidden_version + 1 WHERE id = ?1 AND hidden <> ?2")
        .with(photo, hidden, m_book.id)
        .run();
}

std::vector<AttachedPhoto> PhotoRepository::of(const PhotoOf& of, bool hidden) const {
    if (const auto* revision = std::get_if<base::RevisionId>(&of)) {
        Query query(m_book.connection, kSelectOfRevision);
        query.with(*revision, hidden);
        return photosFrom(query);
    }
    Query query(m_book.connection, kSelectOfTasting);
    query.with(std::get<base::TastingId>(of), hidden);
    return photosFrom(query);
}

std::vector<AttachedPhoto> PhotoRepository::all() const {
    Query query(m_book.connection, kSelectAll);
    return photosFrom(query);
}

std::optional<std::string> PhotoRepository::bytes(const std::string& hash) const {
    Query query(m_book.connection, "SELECT bytes FROM photo WHERE hash = ?");
    query.with(Digest::ofHex(hash));
    return query.next() ? std::optional(query.blob(0)) : std::nullopt;
}

PhotoTally PhotoRepository::tally() const {
    Query query(m_book.connection, "SELECT count(*), ifnull(sum(size), 0) FROM photo");
    query.next();
    return {query.smallInteger(0), query.integer(1)};
}

} // namespace stillroom::store
