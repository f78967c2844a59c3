#pragma once

#include <QString>

#include <string>
#include <string_view>

namespace stillroom::ui {

// Core speaks UTF-8, Qt UTF-16. This is where text crosses.
inline QString fromCore(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}
inline std::string toCore(const QString& text) {
    return text.toStdString();
}

} // namespace stillroom::ui
