#include "core/base/embedded.h"

#include "core/base/embedded_table.h"

namespace stillroom::base {

std::string_view embedded(std::string_view path) {
    for (const EmbeddedFile& file : embeddedFiles())
        if (file.path == path) return {file.begin, static_cast<std::size_t>(file.end - file.begin)};
    return {};
}

} // namespace stillroom::base
