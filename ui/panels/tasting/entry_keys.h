#pragma once

#include <QKeyEvent>

namespace stillroom::ui {

// The keys that every field of the tasting sheet takes alike: more and less, nothing, on and back.
enum class EntryKey : unsigned char { Other, Less, More, Clear, Forward, Backward };

inline EntryKey entryKey(const QKeyEvent& event) {
    switch (event.key()) {
    case Qt::Key_Left:
        return EntryKey::Less;
    case Qt::Key_Right:
        return EntryKey::More;
    case Qt::Key_Backspace:
    case Qt::Key_Delete:
        return EntryKey::Clear;
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Down:
        return EntryKey::Forward;
    case Qt::Key_Up:
        return EntryKey::Backward;
    default:
        return EntryKey::Other;
    }
}

} // namespace stillroom::ui
