#pragma once

#include "core/store/book.h"
#include "core/store/photos_of_book.h"

// Internal to core/store.
namespace stillroom::store {

class PhotoRepository {
  public:
    explicit PhotoRepository(Book& book) : m_book(book) {}

    void store(const tasting::PhotoInfo& info, const std::string& bytes); // once per content
    AttachedPhoto attach(const PhotoOf& of, const tasting::PhotoInfo& info, const std::string& caption);
    void hide(base::PhotoLinkId photo, bool hidden);                     // throws NotFound
    std::vector<AttachedPhoto> of(const PhotoOf& of, bool hidden) const; // the hidden ones, or the others
    std::vector<AttachedPhoto> all() const;                              // hidden ones too, oldest first
    std::optional<std::string> bytes(const std::string& hash) const;
    PhotoTally tally() const;

  private:
    Book& m_book;
};

} // namespace stillroom::store
