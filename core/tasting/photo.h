#pragma once

#include <tl/expected.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// A photo as the book holds it. Core does not decode pictures: it reads the few bytes that say what one is,
// and refuses what the window should have made smaller or taken out before.
namespace stillroom::tasting {

inline constexpr int kMostPhotoPixels = 3000;              // of the longer side
inline constexpr std::size_t kMostPhotoBytes = 16u << 20u; // 16 MiB; common practice, no source

enum class PhotoKind : std::uint8_t { Jpeg, Png };
std::string_view photoMime(PhotoKind kind); // "image/jpeg"
std::optional<PhotoKind> photoKindFromMime(std::string_view mime);

struct PhotoInfo {
    PhotoKind kind = PhotoKind::Jpeg;
    int width = 0;
    int height = 0;
    std::size_t size = 0; // bytes
    std::string hash;     // SHA-256 of the bytes, hex: what the photo is known by
    friend bool operator==(const PhotoInfo&, const PhotoInfo&) = default;
};

enum class PhotoError : std::uint8_t {
    Empty,
    NotAPhoto, // neither JPEG nor PNG
    TooManyBytes,
    TooManyPixels,
    CutShort,        // it ends before the picture does
    CarriesMetadata, // where and with what it was taken: must be stripped
};
std::string_view photoErrorId(PhotoError error);
std::string_view inWords(PhotoError error); // "its end is missing": English

// Walks the picture's segments or chunks without decoding them.
tl::expected<PhotoInfo, PhotoError> inspectPhoto(std::string_view bytes);

} // namespace stillroom::tasting
