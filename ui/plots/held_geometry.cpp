#include "ui/plots/held_geometry.h"

#include "ui/plots/plot_text.h"
#include "ui/text/numbers.h"

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

namespace {

constexpr double kNames = 128; // left of the fields: name, unit, figures of the scale
constexpr double kNow = 64;    // right of them: the reading at the minute asked about
constexpr double kAxis = 22;   // below
constexpr double kTop = 20;    // above: the minute asked about
constexpr double kBetween = 10;
constexpr double kFigureTall = 13; // of a figure on the scale, with air

void scaleStrip(HeldStripBox& box, const HeldStrip& strip, double figureTall) {
    auto [least, most] = std::minmax_element(strip.values.begin(), strip.values.end());
    double low = *least;
    double high = *most;
    if (strip.measured) {
        low = std::min(low, strip.measured->y());
        high = std::max(high, strip.measured->y());
    }
    if (const double missing = strip.leastSpan - (high - low); missing > 0) {
        low -= missing / 2;
        high += missing / 2;
    }
    if (strip.neverNegative && low < 0) {
        high -= low;
        low = 0;
    }
    // Rounding the ends outwards adds steps: fewer are asked for where their figures, the outer ones inside
    // the field, would touch.
    const auto room = std::max(1L, std::lround(std::floor(box.field.height() / figureTall)) - 1);
    double step = 0;
    long count = 0;
    for (int asked = 2; asked >= 1; --asked) {
        step = niceStep(high - low, asked);
        box.low = std::floor(low / step + 1e-9) * step;
        box.high = std::ceil(high / step - 1e-9) * step;
        count = std::lround((box.high - box.low) / step);
        if (count <= room) break;
    }
    const int decimals = decimalsOfStep(step);
    for (long i = 0; i <= count; ++i) {
        const double value = box.low + static_cast<double>(i) * step;
        box.ticks.push_back({value, box.y(value), number(value, decimals)});
    }
}

} // namespace

HeldGeometry heldGeometry(const HeldValues& values, QSizeF size, const Look& look) {
    HeldGeometry geometry;
    if (values.minutes.empty() || values.strips.empty()) return geometry;
    geometry.left = look.px(kNames);
    geometry.right = std::max(geometry.left + 1, size.width() - look.px(kNow));
    geometry.lastMinute = std::max(values.minutes.back(), 1.0);
    const auto count = static_cast<double>(values.strips.size());
    const double room = size.height() - look.px(kTop) - look.px(kAxis) - (count - 1) * look.px(kBetween);
    const double tall = std::max(1.0, room / count);
    double top = look.px(kTop);
    for (const auto& strip : values.strips) {
        HeldStripBox box;
        box.field = QRectF(geometry.left, top, geometry.right - geometry.left, tall);
        if (!strip.values.empty()) scaleStrip(box, strip, look.px(kFigureTall));
        for (std::size_t i = 0; i < std::min(values.minutes.size(), strip.values.size()); ++i)
            box.line << QPointF(geometry.x(values.minutes[i]), box.y(strip.values[i]));
        top += tall + look.px(kBetween);
        geometry.strips.push_back(std::move(box));
    }
    geometry.axisY = geometry.strips.back().field.bottom();
    const double step = std::max(1.0, niceStep(geometry.lastMinute, 6));
    for (double minute = 0; minute <= geometry.lastMinute + 1e-9; minute += step)
        geometry.minutes.push_back({minute, geometry.x(minute), number(minute, decimalsOfStep(step))});
    return geometry;
}

double heldValueAt(const HeldValues& values, const HeldStrip& strip, double minute) {
    const auto count = std::min(values.minutes.size(), strip.values.size());
    if (count == 0) return 0;
    for (std::size_t i = 1; i < count; ++i) {
        if (minute > values.minutes[i]) continue;
        const double from = values.minutes[i - 1];
        const double share = std::clamp((minute - from) / (values.minutes[i] - from), 0.0, 1.0);
        return strip.values[i - 1] + share * (strip.values[i] - strip.values[i - 1]);
    }
    return strip.values[count - 1];
}

} // namespace stillroom::ui
