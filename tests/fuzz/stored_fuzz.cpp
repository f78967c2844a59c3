#include "core/exchange/book_json.h"
#include "core/store/search_of_book.h"
#include "core/tasting/photo.h"
#include "core/tasting/photo_as_taken.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>

// libFuzzer's entry for what a book stores and exchanges as JSON, and for photos: the first byte says which.
// What can be read at all, written and read again is the same. Seeds: sample-data, and one of each kind that
// tests/fuzz/run makes.
namespace {

using namespace stillroom;

[[noreturn]] void broken(const char* what) {
    std::fprintf(stderr, "%s does not come back\n", what);
    std::abort();
}

template <class Value>
void comesBack(const char* what, const std::string& text) {
    const auto read = Value::fromCanonicalJson(text);
    if (!read) return;
    const std::string written = read->canonicalJson();
    const auto again = Value::fromCanonicalJson(written);
    if (!again || !(*again == *read) || again->canonicalJson() != written) broken(what);
}

void book(const std::string& text) {
    const auto read = exchange::bookFromJson(text);
    if (!read) return;
    const std::string written = exchange::bookJson(*read);
    const auto again = exchange::bookFromJson(written);
    if (!again || exchange::bookJson(*again) != written) broken("a book");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
    switch (data[0] % 9) {
    case 0:
        book(text);
        break;
    case 1:
        comesBack<spec::Spec>("a spec", text);
        break;
    case 2:
        comesBack<tasting::Panel>("a panel", text);
        break;
    case 3:
        comesBack<tasting::Circumstances>("circumstances", text);
        break;
    case 4:
        comesBack<larder::FactState>("a fact state", text);
        break;
    case 5:
        comesBack<store::SearchRequest>("a search", text);
        break;
    case 6:
        comesBack<tasting::ScaleSet>("scales", text);
        break;
    case 7:
        if (const auto measures = quantity::HouseMeasures::fromJsonText(text)) {
            const auto again = quantity::HouseMeasures::fromJsonText(measures->toJsonText());
            if (!again || !(*again == *measures)) broken("house measures");
        }
        if (const auto readings = history::readingsFromJson(text))
            if (!history::readingsFromJson(history::readingsToJson(*readings))) broken("readings");
        break;
    default:
        (void)tasting::inspectPhoto(text);
        (void)tasting::problemAsTaken(text);
        break;
    }
    return 0;
}
