#pragma once

#include <QImage>
#include <QSize>
#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

namespace stillroom::ui {

struct RenderRequest {
    QString view;     // one of renderViews()
    QString workbook; // path; opened read-only, nothing in it changes
    QString drink;    // by name, case aside; empty: the first on the shelf
    QSize size;       // in pixels at scale 1; empty: the view's usual one
    QString words;    // typed where the view asks for words: "search"
    double scale = 1; // device pixels for one of those
    bool dark = false;
};

// "bench", "working" (of the strength as served), "held", "side-by-side", "side-by-side-4" (with
// further revisions), "tasting", "trail", "glass",
// "balance", "larder" (`drink` names an ingredient, else of what the drink's first line names),
// "larder-edit" (the same with its strength changed, and what that does), "find-fact" (a weighing of its
// second), "target", "stand-in", "search" (for `words`), "bin", "panel" (the newest blind session, or the one
// `words` names), "panel-new", "panel-planned", "panel-pouring", "panel-closed".
QStringList renderViews();

// Draws a view as the program shows it. Needs a QApplication (the offscreen platform will do) and puts the
// theme back as it was. The error is a sentence for a person: what is wrong, and with what.
tl::expected<QImage, QString> renderView(const RenderRequest& request);

} // namespace stillroom::ui
