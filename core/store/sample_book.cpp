#include "core/store/sample_book.h"

#include "core/base/embedded.h"
#include "core/store/book_import.h"
#include "core/store/sample_panels.h"

#include <stdexcept>

#include <cstdio>

namespace stillroom::store {

void createSampleBook(const std::string& path) {
    const auto book = exchange::bookFromJson(base::embedded("sample-data/nine-lights.json"));
    if (!book) throw std::runtime_error("The sample cannot be read: " + book.error() + ".");
    BookClock clock;
    BookSettings settings;
    settings.name = book->name;
    settings.zone = book->zone;
    settings.region = book->region;
    if (const auto currency = quantity::Currency::fromCode(book->currency))
        settings.rules.currency = *currency;
    auto workbook = Workbook::create(path, settings, clock);
    try {
        importBook(*workbook, clock, *book);
        addSamplePanels(*workbook, clock);
        while (workbook->search({}, 0).unread > 0) // so that it can be searched where it cannot be written
            continue;
        workbook->flush();
    } catch (...) {
        workbook.reset();
        for (const char* suffix : {"", "-wal", "-shm", "-journal"})
            std::remove((path + suffix).c_str());
        throw;
    }
}

} // namespace stillroom::store
