#pragma once

#include "ui/text/numbers.h"
#include "ui/theme/look.h"

#include <QPainter>

namespace stillroom::ui {

// Text on one baseline in a cell, cut with "…" where the cell ends. Returns the width it took.
double paintText(QPainter& painter, const QRectF& box, const QString& text, const QFont& font,
                 const QColor& color, Qt::Alignment horizontal = Qt::AlignLeft);
double textWidth(const QString& text, const QFont& font);

// A reading right-aligned in its cell: its sign apart and before it, dots under it when a fact is missing.
struct ReadingPaint {
    QFont font;
    QColor ink;
    bool dots = true;     // underline a gap
    int changedFrom = -1; // characters from here are underlined as changed
    QColor changedInk;
};
void paintReading(QPainter& painter, const QRectF& box, const ReadingText& text, const ReadingPaint& how,
                  const Look& look);

} // namespace stillroom::ui
