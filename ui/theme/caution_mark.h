#pragma once

#include "ui/theme/look.h"

#include <QRectF>

class QPainter;

namespace stillroom::ui {

// The triangle with its stroke: somebody could be hurt, or misled. Never alone: words stand beside it.
void paintCautionMark(QPainter& painter, const QRectF& box, const QColor& ink, const Look& look);

} // namespace stillroom::ui
