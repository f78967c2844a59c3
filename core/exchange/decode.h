#pragma once

#include "core/exchange/read_text.h"

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

struct DecodedLine {
    std::string text;       // UTF-8, without its line break
    bool recovered = false; // bytes that were no UTF-8 were read as Windows-1252
};

struct Decoded {
    bool isText = true;
    std::vector<DecodedLine> lines;
    bool recovered = false;
    std::string joined() const; // the lines with "\n" between them
};

// UTF-8, UTF-16 with or without its mark, or Windows-1252, by the bytes alone; line breaks are LF, CRLF and
// lone CR. isText is false for images, archives and the like.
Decoded decodeText(std::string_view bytes);

} // namespace stillroom::exchange
