#include "app/headless/command.h"

#include "core/base/clock.h"
#include "core/store/sample_book.h"
#include "core/store/workbook.h"

#include <ostream>

namespace stillroom::headless {

int runNew(const Options& options, Streams& streams) {
    const std::string& path = options.plain.front();
    if (options.has("--sample")) {
        store::createSampleBook(path);
    } else {
        const base::SystemClock clock;
        store::Workbook::create(path, store::BookSettings{}, clock);
    }
    streams.out << "Made " << clean(path)
                << (options.has("--sample") ? ", with the sample in it.\n" : ", an empty workbook.\n");
    return kDone;
}

} // namespace stillroom::headless
