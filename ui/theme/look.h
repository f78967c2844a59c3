#pragma once

#include "ui/theme/tokens.h"

#include <QColor>
#include <QFont>
#include <QPen>

#include <array>

namespace stillroom::ui {

// Everything a paint routine asks of the theme, as a value: the same routine draws for a screen in the
// dark, a printed page or an image. Lengths given to px() are pixels at 100 %.
class Look {
  public:
    // `fontDpi` above 0, for paper: type in whole pixels, measured and drawn alike on a device of any
    // resolution. Without it Qt rounds, too, when it loads a face: 13.5 becomes 14.
    static Look of(Mode mode, double zoom = 1.0, double fontDpi = 0);

    Mode mode() const { return m_mode; }
    double zoom() const { return m_zoom; }
    double px(double at100) const { return at100 * m_zoom; }
    int pxInt(double at100) const;
    const QColor& color(Token token) const { return m_colors[static_cast<std::size_t>(token)]; }
    const QFont& font(Type type) const { return m_fonts[static_cast<std::size_t>(type)]; }
    double lineHeight(Type type) const { return px(m_lines[static_cast<std::size_t>(type)]); }
    // A pen of this many pixels at 100 %, flat-capped.
    QPen pen(Token token, double width = 1.0, Qt::PenStyle style = Qt::SolidLine) const;

  private:
    Look() = default;

    Mode m_mode = Mode::Light;
    double m_zoom = 1.0;
    std::array<QColor, kTokenCount> m_colors;
    std::array<QFont, kTypeCount> m_fonts;
    std::array<double, kTypeCount> m_lines{};
};

} // namespace stillroom::ui
