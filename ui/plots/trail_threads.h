#pragma once

#include "ui/plots/trail_geometry.h"

class QPainter;

namespace stillroom::ui {

inline constexpr double kThreadsWidth = 132;

// How two neighbours of a small line are joined: dashed where one is an estimate, dotted where one is only
// a bound, so that no flat line says more than is known.
enum class ThreadStroke : unsigned char { Solid, Dashed, Dotted };
ThreadStroke threadStroke(const TrailReading& a, const TrailReading& b);

// Strength and sugar : acid along the base line of the trail.
void paintThreads(QPainter& painter, const QRectF& box, const TrailValues& values, const Look& look);

} // namespace stillroom::ui
