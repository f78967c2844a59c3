#pragma once

#include "ui/theme/tokens.h"

#include <QString>

class QLabel;
class QPushButton;
class QVBoxLayout;
class QWidget;

namespace stillroom::ui {

// Pieces the views of a blind session are put together from. They are made for the look of the moment; the
// page makes its view anew when that changes.
QLabel* paragraph(const QString& text, Type type, Token ink); // wraps
QLabel* blindCaption(const QString& text, QWidget* buddy = nullptr);
QPushButton* blindButton(const QString& text, bool act = false);
QVBoxLayout* blindColumn(QWidget* widget, int spacing);

} // namespace stillroom::ui
