#pragma once

#include "ui/theme/look.h"

#include <QIcon>
#include <QPixmap>
#include <QStringView>

class QPainter;
class QRectF;

namespace stillroom::ui {

// Icons are line drawings in `currentColor`; here they take a token's colour. Names are the files of
// resources/icons without their ending: "role-floated". An unknown name gives a null pixmap.
QPixmap iconPixmap(QStringView name, const QColor& color, double sizePx, double devicePixelRatio);
// For actions and buttons: normal in ink-2, disabled in ink-3, sharp at any size the view asks for. Follows
// the theme: an icon made before a switch paints in the colours after it.
QIcon icon(QStringView name, Token token = Token::Ink2);
void paintIcon(QPainter& painter, const QRectF& box, QStringView name, const QColor& color);
QStringList iconNames();
void clearIconCache();

} // namespace stillroom::ui
