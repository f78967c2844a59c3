#include "ui/plots/balance_geometry.h"

#include "ui/plots/plot_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::ui {

namespace {

constexpr std::array<double, 12> kRatios = {1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30};

void add(std::vector<double>& values, const std::optional<balance::Range>& range) {
    if (!range || !range->stated) return;
    values.push_back(range->low);
    values.push_back(range->high);
}

// Of the ratios that cross the field, at most four, evenly picked, each labelled where it leaves.
void addRays(BalanceGeometry& geometry, const Look& look) {
    const auto& field = geometry.field;
    std::vector<RatioRay> all;
    for (const double ratio : kRatios) {
        const auto x = [&](double sugar) {
            return field.left() + geometry.sugar.share(sugar) * field.width();
        };
        const auto y = [&](double acid) {
            return field.bottom() - geometry.acid.share(acid) * field.height();
        };
        // Between where it enters (left or bottom) and leaves (top or right).
        const double fromSugar = std::max(geometry.sugar.low, geometry.acid.low * ratio);
        const double toSugar = std::min(geometry.sugar.high, geometry.acid.high * ratio);
        if (!(toSugar > fromSugar)) continue;
        const QLineF line(x(fromSugar), y(fromSugar / ratio), x(toSugar), y(toSugar / ratio));
        if (line.length() < look.px(60)) continue;
        const bool leavesAtTop = geometry.acid.high * ratio <= geometry.sugar.high;
        const QPointF label = leavesAtTop ? line.p2() + QPointF(-look.px(16), look.px(9))
                                          : line.p2() + QPointF(-look.px(16), -look.px(9));
        all.push_back({ratio, line, label});
    }
    double lastX = field.left() + look.px(24); // clear of the axis name
    double lastY = field.bottom();
    for (auto& ray : all) {
        const bool top = ray.line.p2().y() <= field.top() + 1;
        if (top ? ray.labelAt.x() - look.px(16) < lastX : ray.labelAt.y() > lastY - look.px(14)) continue;
        if (!top && ray.labelAt.y() < field.top() + look.px(16)) continue;
        (top ? lastX : lastY) = top ? ray.labelAt.x() + look.px(24) : ray.labelAt.y();
        if (!top) lastY = field.bottom();
        geometry.rays.push_back(ray);
    }
    std::vector<RatioRay> kept;
    for (const auto& ray : geometry.rays) {
        const bool clash = std::any_of(kept.begin(), kept.end(), [&](const RatioRay& other) {
            return std::abs(other.labelAt.x() - ray.labelAt.x()) < look.px(36) &&
                   std::abs(other.labelAt.y() - ray.labelAt.y()) < look.px(14);
        });
        if (!clash) kept.push_back(ray);
    }
    geometry.rays = std::move(kept);
}

} // namespace

Axis axisAround(const std::vector<double>& values, double leastSpan, int mostSteps) {
    Axis axis;
    if (values.empty()) {
        axis.low = 0;
        axis.high = leastSpan;
    } else {
        const auto [low, high] = std::minmax_element(values.begin(), values.end());
        const double pad = std::max((*high - *low) * 0.18, (leastSpan - (*high - *low)) / 2);
        axis.low = *low - std::max(0.0, pad);
        axis.high = *high + std::max(0.0, pad);
        if (axis.low < 0) axis.low = std::min(0.0, *low);
    }
    axis.step = niceStep(std::max(axis.high - axis.low, leastSpan), mostSteps);
    axis.low = std::floor(axis.low / axis.step + 1e-9) * axis.step;
    axis.high = std::ceil(axis.high / axis.step - 1e-9) * axis.step;
    if (axis.high - axis.low < axis.step) axis.high = axis.low + axis.step;
    axis.decimals = decimalsOfStep(axis.step);
    return axis;
}

QPointF BalanceGeometry::at(const MapPoint& point) const {
    return {field.left() + std::clamp(sugar.share(point.sugar), 0.0, 1.0) * field.width(),
            field.bottom() - std::clamp(acid.share(point.acid), 0.0, 1.0) * field.height()};
}

double BalanceGeometry::strengthY(double value) const {
    return field.bottom() - std::clamp(strength.share(value), 0.0, 1.0) * field.height();
}

BalanceGeometry balanceGeometry(const BalanceValues& values, QSizeF size, const Look& look) {
    std::vector<double> sugars, acids, strengths;
    if (values.region) {
        add(sugars, values.region->sugar);
        add(acids, values.region->acid);
        add(strengths, values.region->strength);
    }
    add(sugars, values.aim.sugar);
    add(acids, values.aim.acid);
    add(strengths, values.aim.strength);
    auto points = values.earlier;
    if (values.now) points.push_back(*values.now);
    for (const auto& point : points) {
        if (point.isPlaced()) {
            sugars.push_back(point.sugar);
            acids.push_back(point.acid);
        }
        if (point.strength) strengths.push_back(*point.strength);
    }

    BalanceGeometry geometry;
    const int stepsAcross = std::max(2, static_cast<int>(size.width() / look.px(75)));
    const int stepsUp = std::max(2, static_cast<int>(size.height() / look.px(48)));
    geometry.sugar = axisAround(sugars, sugars.empty() ? 12 : 4, stepsAcross);
    geometry.acid = axisAround(acids, acids.empty() ? 1.2 : 0.4, stepsUp);
    geometry.strength = axisAround(strengths, strengths.empty() ? 40 : 8, stepsUp);

    const double sentence = look.lineHeight(Type::Body) * 2 + look.px(8);
    const double left = look.px(34);
    const double right = look.px(74);
    const double top = look.px(10);
    const double bottom = look.px(34) + (values.sentence.isEmpty() ? 0 : sentence);
    geometry.field = QRectF(left, top, std::max(1.0, size.width() - left - right),
                            std::max(1.0, size.height() - top - bottom));
    geometry.scaleX = geometry.field.right() + look.px(36);
    geometry.sentenceBox = QRectF(look.px(12), size.height() - sentence + look.px(4),
                                  size.width() - look.px(20), sentence - look.px(4));

    // What a source leaves open reaches across the whole field.
    const auto& field = geometry.field;
    const auto box = [&](const balance::Range& sugar, const balance::Range& acid) {
        const auto x = [&](double value) { return geometry.at({{}, value, 0, {}}).x(); };
        const auto y = [&](double value) { return geometry.at({{}, 0, value, {}}).y(); };
        return QRectF(
            QPointF(sugar.stated ? x(sugar.low) : field.left(), acid.stated ? y(acid.high) : field.top()),
            QPointF(sugar.stated ? x(sugar.high) : field.right(),
                    acid.stated ? y(acid.low) : field.bottom()));
    };
    if (values.region && (values.region->sugar.stated || values.region->acid.stated))
        geometry.regionBox = box(values.region->sugar, values.region->acid);
    if (values.region && values.region->strength.stated) {
        const double high = geometry.strengthY(values.region->strength.high);
        const double low = geometry.strengthY(values.region->strength.low);
        geometry.strengthBox = QRectF(geometry.scaleX, high, look.px(12), low - high);
    }
    if (values.aim.sugar && values.aim.acid) geometry.aimBox = box(*values.aim.sugar, *values.aim.acid);
    addRays(geometry, look);
    return geometry;
}

} // namespace stillroom::ui
