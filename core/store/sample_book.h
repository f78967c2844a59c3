#pragma once

#include <string>

namespace stillroom::store {

// A new workbook with the sample in it: the Low Lamp, Nine Lights. Nothing may stand at `path`; when
// anything fails, nothing stands there afterwards either.
void createSampleBook(const std::string& path);

} // namespace stillroom::store
