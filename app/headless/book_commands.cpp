#include "app/headless/command.h"
#include "app/headless/files.h"
#include "app/headless/json_out.h"
#include "core/base/clock.h"
#include "core/store/book_export.h"
#include "core/store/book_import.h"

#include <filesystem>
#include <fstream>
#include <ostream>

namespace stillroom::headless {

namespace {

constexpr std::size_t kLargestBook = std::size_t{1} << 30U;

// Whole or not at all, and never over what stands there.
void writeNew(const std::string& path, const std::string& text) {
    namespace fs = std::filesystem;
    std::error_code error;
    if (fs::exists(path, error)) throw FileProblem(path + " is there already. Nothing was written.");
    const std::string part = path + ".part";
    {
        std::ofstream out(part, std::ios::binary | std::ios::trunc);
        out << text;
        out.flush();
        if (!out) {
            out.close();
            fs::remove(part, error);
            throw FileProblem(path + " could not be written. Nothing is left of it.");
        }
    }
    fs::rename(part, path, error);
    if (!error) return;
    fs::remove(part, error);
    throw FileProblem(path + " could not be written. Nothing is left of it.");
}

// Said to whoever runs it, never into the file: a file handed on gives the key away.
void warnOfCodes(const exchange::ScriptedBook& book, std::ostream& err) {
    for (const exchange::ScriptedPanel& panel : book.panels)
        if (panel.panel.state != tasting::PanelState::Closed)
            err << "The file holds the codes of \"" << clean(panel.name)
                << "\", which is not closed: whoever is to taste blind must not read it.\n";
}

} // namespace

int runExport(const Options& options, Streams& streams) {
    const base::SystemClock clock;
    const auto book = store::Workbook::open(options.plain.front(), store::OpenMode::ReadOnly, clock);
    const auto whole = store::exportBook(*book);
    const std::string text = safeJson(exchange::bookJson(whole)) + "\n";
    warnOfCodes(whole, streams.err);
    if (const std::string out = options.value("--out"); !out.empty()) {
        writeNew(out, text);
        streams.out << "Wrote " << clean(out) << ": " << whole.drinks.size() << " drinks, "
                    << whole.photos.size() << " photos.\n";
    } else {
        streams.out << text;
    }
    return kDone;
}

int runImport(const Options& options, Streams& streams) {
    const auto book = exchange::bookFromJson(fileContent(options.plain[0], kLargestBook));
    if (!book) {
        streams.err << clean(options.plain[0]) << " cannot be read: " << clean(book.error())
                    << ". Nothing was made.\n";
        return kProblem;
    }
    store::createBook(options.plain[1], *book);
    streams.out << "Made " << clean(options.plain[1]) << ": " << book->drinks.size() << " drinks, "
                << book->photos.size() << " photos.\n";
    return kDone;
}

} // namespace stillroom::headless
