#include "core/store/sample_book.h"

#include "core/base/embedded.h"
#include "core/store/book_import.h"
#include "core/store/sample_panels.h"

#include <stdexcept>

namespace stillroom::store {

void createSampleBook(const std::string& path) {
    const auto book = exchange::bookFromJson(base::embedded("sample-data/nine-lights.json"));
    if (!book) throw std::runtime_error("The sample cannot be read: " + book.error() + ".");
    createBook(path, *book, addSamplePanels);
}

} // namespace stillroom::store
