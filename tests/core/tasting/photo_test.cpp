#include "core/tasting/photo.h"
#include "core/tasting/photo_as_taken.h"

#include "tests/core/tasting/photo_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using tasting::inspectPhoto;
using tasting::PhotoError;
using tasting::problemAsTaken;

TEST_CASE("a whole JPEG or PNG says its size", "[photo]") {
    const auto jpeg = inspectPhoto(jpegOf(3000, 1999));
    REQUIRE(jpeg);
    CHECK(jpeg->width == 3000);
    CHECK(jpeg->height == 1999);
    CHECK(tasting::photoMime(jpeg->kind) == "image/jpeg");
    CHECK(jpeg->hash.size() == 64);
    const auto png = inspectPhoto(pngOf(640, 480));
    REQUIRE(png);
    CHECK(png->width == 640);
    CHECK(tasting::photoKindFromMime("image/png") == png->kind);
}

TEST_CASE("a photo of sixty megapixels is refused by its header alone", "[photo]") {
    CHECK(inspectPhoto(jpegOf(9500, 6400)).error() == PhotoError::TooManyPixels);
    CHECK(inspectPhoto(pngOf(0xFFFFFFFFU, 1)).error() == PhotoError::TooManyPixels);
    CHECK(inspectPhoto(jpegOf(3001, 10)).error() == PhotoError::TooManyPixels);
}

TEST_CASE("a photo cut anywhere is refused and never read past its end", "[photo]") {
    for (const std::string& whole : {jpegOf(1200, 900), pngOf(1200, 900)}) {
        for (std::size_t length = 0; length < whole.size(); ++length) {
            CAPTURE(length);
            const std::string cut = whole.substr(0, length); // a buffer of its own
            CHECK_FALSE(inspectPhoto(cut));
        }
        CHECK(inspectPhoto(whole.substr(0, whole.size() - 2)).error() == PhotoError::CutShort);
    }
}

TEST_CASE("bytes that are no photo are refused", "[photo]") {
    CHECK(inspectPhoto("").error() == PhotoError::Empty);
    CHECK(inspectPhoto("GIF89a").error() == PhotoError::NotAPhoto);
    CHECK(inspectPhoto(jpegOf(0, 10)).error() == PhotoError::NotAPhoto);
    CHECK(inspectPhoto(pngOf(0, 10)).error() == PhotoError::NotAPhoto);
    CHECK(inspectPhoto(std::string("\xFF\xD8\xFF\xE0\x00\x01", 6)).error() == PhotoError::NotAPhoto);
    CHECK(inspectPhoto(std::string(tasting::kMostPhotoBytes + 1, 'x')).error() == PhotoError::TooManyBytes);
}

TEST_CASE("a photo that says where it was taken is refused", "[photo]") {
    CHECK(inspectPhoto(jpegOf(10, 10, jpegSegment(0xE1, "Exif"))).error() == PhotoError::CarriesMetadata);
    CHECK(inspectPhoto(jpegOf(10, 10, jpegSegment(0xFE, "a comment"))).error() ==
          PhotoError::CarriesMetadata);
    CHECK(inspectPhoto(pngOf(10, 10, pngChunk("tEXt", "Author"))).error() == PhotoError::CarriesMetadata);
    // A colour profile says how to read the colours.
    CHECK(inspectPhoto(jpegOf(10, 10, jpegSegment(0xE2, "ICC_PROFILE"))));
}

TEST_CASE("A picture as taken may carry metadata and be large but not end early", "[photo]") {
    const auto exif = jpegSegment(0xE1, std::string("Exif\0\0", 6) + std::string(200, 'x'));
    const auto phone = jpegOf(9000, 6700, exif); // 60 megapixels
    CHECK(inspectPhoto(phone).error() == PhotoError::CarriesMetadata);
    CHECK_FALSE(problemAsTaken(phone).has_value());
    CHECK(problemAsTaken(phone.substr(0, phone.size() - 4)) == PhotoError::CutShort);
    CHECK(problemAsTaken(phone.substr(0, 40)) == PhotoError::CutShort);
    CHECK(problemAsTaken("") == PhotoError::Empty);
    CHECK(problemAsTaken("a shopping list") == PhotoError::NotAPhoto);
    const auto png = pngOf(20, 10, pngChunk("tEXt", "Comment"));
    CHECK_FALSE(problemAsTaken(png).has_value());
    CHECK(problemAsTaken(png.substr(0, png.size() - 8)) == PhotoError::CutShort);
}
