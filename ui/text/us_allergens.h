#pragma once

#include <QString>

#include <string>
#include <vector>

namespace stillroom::ui {

// "US: tree nuts; perhaps wheat." where the US list says other than the European one; else empty.
QString usAllergens(const std::vector<std::string>& euIds);

} // namespace stillroom::ui
