#pragma once

#include "core/tasting/photo.h"

namespace stillroom::tasting {

// A picture as it came from a camera, before the window makes it small and takes its metadata out: Empty,
// NotAPhoto or CutShort. However large it is, and whatever it carries, is no problem yet. Decoders draw a
// truncated JPEG without a word, grey from where it ends.
std::optional<PhotoError> problemAsTaken(std::string_view bytes);

} // namespace stillroom::tasting
