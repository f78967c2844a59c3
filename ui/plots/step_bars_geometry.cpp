#include "ui/plots/step_bars_geometry.h"

#include "ui/plots/plot_text.h"

#include <algorithm>

namespace stillroom::ui {

namespace {

constexpr double kPitch = 34;
constexpr double kBar = 18;
constexpr double kSide = 16;

} // namespace

double stepBarsHeight(std::size_t bars, const Look& look) {
    return look.px(kPitch) * static_cast<double>(std::max<std::size_t>(bars, 1)) + look.px(6);
}

StepBarsGeometry stepBarsGeometry(const StepBarsValues& values, QSizeF size, const Look& look) {
    StepBarsGeometry geometry;
    const double side = look.px(kSide);
    double name = 0;
    double beside = 0;
    double most = 0;
    for (const auto& bar : values.bars) {
        name = std::max(name, textWidth(bar.name, Type::Control, look));
        beside = std::max(beside, textWidth(bar.beside, Type::Control, look));
        most = std::max(most, bar.grams + bar.left);
    }
    name = std::min(name, (size.width() - 2 * side) * 0.34);
    beside = std::min(beside, (size.width() - 2 * side) * 0.28);
    geometry.nameRight = side + name;
    const double left = geometry.nameRight + look.px(12);
    const double field = std::max(look.px(40), size.width() - side - beside - look.px(10) - left);
    geometry.pxPerGram = most > 0 ? field / most : 0;
    double y = look.px(2);
    for (const auto& bar : values.bars) {
        StepBarBox box;
        box.row = QRectF(0, y, size.width(), look.px(kPitch));
        const double top = y + (look.px(kPitch) - look.px(kBar)) / 2;
        box.bar = QRectF(left, top, bar.grams * geometry.pxPerGram, look.px(kBar));
        const double lost = bar.left * geometry.pxPerGram;
        if (lost > 0) box.lost = QRectF(box.bar.right(), top, lost, look.px(kBar));
        box.textX = box.bar.right() + lost + look.px(8);
        geometry.bars.push_back(box);
        y += look.px(kPitch);
    }
    return geometry;
}

} // namespace stillroom::ui
