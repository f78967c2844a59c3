#pragma once

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/tasting/photo.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace stillroom::store {

using PhotoOf = std::variant<base::RevisionId, base::TastingId>;

struct AttachedPhoto {
    base::PhotoLinkId id;
    PhotoOf of;
    tasting::PhotoInfo info; // info.hash asks for the bytes
    std::string caption;
    base::Instant when; // attached
    bool hidden = false;
    friend bool operator==(const AttachedPhoto&, const AttachedPhoto&) = default;
};

struct PhotoTally {
    int photos = 0; // each content once
    std::int64_t bytes = 0;
};

// Photos in the file, known by their content. Part of a Workbook, with its promises.
class PhotosOfBook {
  public:
    virtual ~PhotosOfBook() = default;

    // The bytes of a JPEG or PNG, already made small and stripped (core/tasting/photo.h has the bounds). The
    // same bytes are stored once. NotFound (StoreError): no such revision or tasting.
    virtual tl::expected<AttachedPhoto, tasting::PhotoError>
    attachPhoto(const PhotoOf& of, const std::string& bytes, const std::string& caption = {}) = 0;
    // Taken off what it was attached to, or back. The bytes stay until the bin is emptied.
    virtual void hidePhoto(base::PhotoLinkId photo, bool hidden) = 0;
    // Oldest first, hidden ones left out. Of a tasting: with those of the ones it amends.
    virtual std::vector<AttachedPhoto> photosOf(const PhotoOf& of) const = 0;
    virtual std::optional<std::string> photoBytes(const std::string& hash) const = 0;
    virtual PhotoTally photoTally() const = 0;
};

} // namespace stillroom::store
