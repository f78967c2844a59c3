#include "core/tasting/photo.h"

#include "core/tasting/photo_as_taken.h"

#include "core/base/hash.h"

#include <algorithm>
#include <array>

namespace stillroom::tasting {

namespace {

// In the order of the enumerations; these enter files.
constexpr std::array<std::string_view, 2> kMimes{"image/jpeg", "image/png"};
constexpr std::array<std::string_view, 6> kErrors{"empty",           "not_a_photo", "too_many_bytes",
                                                  "too_many_pixels", "cut_short",   "carries_metadata"};

enum class Metadata : std::uint8_t { Refused, PassedOver };

using Size = tl::expected<std::pair<std::uint64_t, std::uint64_t>, PhotoError>;

unsigned byteAt(std::string_view bytes, std::size_t at) {
    return static_cast<unsigned char>(bytes[at]);
}

std::uint64_t bigEndian(std::string_view bytes, std::size_t at, std::size_t count) {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < count; ++i)
        value = value << 8U | byteAt(bytes, at + i);
    return value;
}

// ITU-T T.81, B.1.1.3: the frame headers; C4, C8 and CC are tables and extensions.
bool isFrameHeader(unsigned marker) {
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

// APP1 (Exif, XMP), APP13 (captions) and comments tell of the place and the person. APP0, APP2 (colour
// profile) and APP14 say how to read the colours.
bool isJpegMetadata(unsigned marker) {
    return marker == 0xE1 || marker == 0xED || marker == 0xFE;
}

// Where the next marker after compressed data stands: FF followed by neither 00 nor a restart.
std::size_t afterScan(std::string_view bytes, std::size_t at) {
    for (; at + 1 < bytes.size(); ++at) {
        if (byteAt(bytes, at) != 0xFF) continue;
        const unsigned next = byteAt(bytes, at + 1);
        if (next != 0x00 && next != 0xFF && !(next >= 0xD0 && next <= 0xD7)) return at;
    }
    return bytes.size();
}

Size sizeOfJpeg(std::string_view bytes, Metadata metadata) {
    std::pair<std::uint64_t, std::uint64_t> size{0, 0};
    bool scanned = false;
    std::size_t at = 2;
    while (at + 2 <= bytes.size()) {
        if (byteAt(bytes, at) != 0xFF) return tl::unexpected(PhotoError::NotAPhoto);
        const unsigned marker = byteAt(bytes, at + 1);
        if (marker == 0xFF) { // fill byte
            ++at;
            continue;
        }
        if (marker == 0xD9) { // the end
            if (!scanned || size.first == 0 || size.second == 0) return tl::unexpected(PhotoError::NotAPhoto);
            return size;
        }
        if (marker == 0x01 || (marker >= 0xD0 && marker <= 0xD8)) {
            at += 2;
            continue;
        }
        if (at + 4 > bytes.size()) break;
        const auto length = static_cast<std::size_t>(bigEndian(bytes, at + 2, 2));
        if (length < 2) return tl::unexpected(PhotoError::NotAPhoto);
        if (at + 2 + length > bytes.size()) break;
        if (metadata == Metadata::Refused && isJpegMetadata(marker))
            return tl::unexpected(PhotoError::CarriesMetadata);
        if (isFrameHeader(marker)) {
            if (length < 8) return tl::unexpected(PhotoError::NotAPhoto);
            size = {bigEndian(bytes, at + 7, 2), bigEndian(bytes, at + 5, 2)};
        }
        at += 2 + length;
        if (marker == 0xDA) {
            scanned = true;
            at = afterScan(bytes, at);
        }
    }
    return tl::unexpected(PhotoError::CutShort);
}

// PNG, ISO/IEC 15948, 11.3: text, time and Exif chunks.
bool isPngMetadata(std::string_view type) {
    constexpr std::array<std::string_view, 5> kinds{"tEXt", "zTXt", "iTXt", "eXIf", "tIME"};
    return std::find(kinds.begin(), kinds.end(), type) != kinds.end();
}

Size sizeOfPng(std::string_view bytes, Metadata metadata) {
    std::pair<std::uint64_t, std::uint64_t> size{0, 0};
    for (std::size_t at = 8; at + 12 <= bytes.size();) {
        const std::uint64_t length = bigEndian(bytes, at, 4);
        const std::string_view type = bytes.substr(at + 4, 4);
        if (length > bytes.size() - at - 12) break;
        if (at == 8) {
            if (type != "IHDR" || length != 13) return tl::unexpected(PhotoError::NotAPhoto);
            size = {bigEndian(bytes, at + 8, 4), bigEndian(bytes, at + 12, 4)};
            if (size.first == 0 || size.second == 0) return tl::unexpected(PhotoError::NotAPhoto);
        }
        if (metadata == Metadata::Refused && isPngMetadata(type))
            return tl::unexpected(PhotoError::CarriesMetadata);
        if (type == "IEND") return size;
        at += static_cast<std::size_t>(length) + 12;
    }
    return tl::unexpected(PhotoError::CutShort);
}

std::optional<PhotoKind> kindOf(std::string_view bytes) {
    constexpr std::string_view kPng("\x89PNG\r\n\x1a\n", 8);
    constexpr std::string_view kJpeg("\xFF\xD8\xFF", 3);
    if (bytes.substr(0, kPng.size()) == kPng) return PhotoKind::Png;
    if (bytes.substr(0, kJpeg.size()) == kJpeg) return PhotoKind::Jpeg;
    return std::nullopt;
}

Size sizeOf(std::string_view bytes, PhotoKind kind, Metadata metadata) {
    return kind == PhotoKind::Png ? sizeOfPng(bytes, metadata) : sizeOfJpeg(bytes, metadata);
}

} // namespace

std::string_view photoMime(PhotoKind kind) {
    return kMimes[static_cast<std::size_t>(kind)];
}

std::optional<PhotoKind> photoKindFromMime(std::string_view mime) {
    const auto found = std::find(kMimes.begin(), kMimes.end(), mime);
    if (found == kMimes.end()) return std::nullopt;
    return static_cast<PhotoKind>(found - kMimes.begin());
}

std::string_view photoErrorId(PhotoError error) {
    return kErrors[static_cast<std::size_t>(error)];
}

std::string_view inWords(PhotoError error) {
    switch (error) {
    case PhotoError::Empty:
        return "there is nothing in it";
    case PhotoError::NotAPhoto:
        return "it is no JPEG or PNG";
    case PhotoError::TooManyBytes:
        return "it is larger than a book takes";
    case PhotoError::TooManyPixels:
        return "it has more pixels than a book takes";
    case PhotoError::CutShort:
        return "its end is missing";
    case PhotoError::CarriesMetadata:
        return "it says where, when or with what it was taken";
    }
    return {};
}

tl::expected<PhotoInfo, PhotoError> inspectPhoto(std::string_view bytes) {
    if (bytes.empty()) return tl::unexpected(PhotoError::Empty);
    if (bytes.size() > kMostPhotoBytes) return tl::unexpected(PhotoError::TooManyBytes);
    PhotoInfo info;
    const auto kind = kindOf(bytes);
    if (!kind) return tl::unexpected(PhotoError::NotAPhoto);
    info.kind = *kind;
    const Size size = sizeOf(bytes, *kind, Metadata::Refused);
    if (!size) return tl::unexpected(size.error());
    if (std::max(size->first, size->second) > kMostPhotoPixels)
        return tl::unexpected(PhotoError::TooManyPixels);
    info.width = static_cast<int>(size->first);
    info.height = static_cast<int>(size->second);
    info.size = bytes.size();
    info.hash = base::sha256Hex(bytes);
    return info;
}

std::optional<PhotoError> problemAsTaken(std::string_view bytes) {
    if (bytes.empty()) return PhotoError::Empty;
    const auto kind = kindOf(bytes);
    if (!kind) return PhotoError::NotAPhoto;
    const Size size = sizeOf(bytes, *kind, Metadata::PassedOver);
    return size ? std::nullopt : std::optional(size.error());
}

} // namespace stillroom::tasting
