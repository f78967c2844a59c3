#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace stillroom::exchange {

// RFC 4648, section 4: padded, without line breaks. Anything else is nullopt.
std::string toBase64(std::string_view bytes);
std::optional<std::string> fromBase64(std::string_view text);

} // namespace stillroom::exchange
