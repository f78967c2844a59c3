#include "ui/theme/look.h"

#include <QFile>
#include <QFontDatabase>
#include <QGuiApplication>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QScreen>

#include <algorithm>
#include <cmath>

// Outside any namespace, as Q_INIT_RESOURCE asks.
static void initThemeResource() {
    Q_INIT_RESOURCE(theme);
}

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

const QJsonObject& tokens() {
    static const QJsonObject object = [] {
        initThemeResource();
        QFile file(u":/stillroom/theme/tokens.json"_s);
        [[maybe_unused]] const bool opened = file.open(QIODevice::ReadOnly);
        Q_ASSERT(opened);
        return QJsonDocument::fromJson(file.readAll()).object();
    }();
    return object;
}

QStringList families(const QString& voice) {
    QStringList list;
    for (const auto& family : tokens()[u"families"][voice].toArray())
        list << family.toString();
    return list;
}

double screenDpi() {
    const auto* screen = QGuiApplication::primaryScreen();
    return screen ? screen->logicalDotsPerInchY() : 96.0;
}

} // namespace

Look Look::of(Mode mode, double zoom, double fontDpi) {
    Look look;
    look.m_mode = mode;
    look.m_zoom = zoom;

    const auto colors = tokens()[u"color"][mode == Mode::Dark ? "dark"_L1 : "light"_L1].toObject();
    for (std::size_t i = 0; i < kTokenCount; ++i) {
        const auto id = tokenId(static_cast<Token>(i));
        look.m_colors[i] = QColor(colors[id].toString());
        Q_ASSERT_X(look.m_colors[i].isValid(), "Look", qPrintable(id.toString()));
    }

    const auto types = tokens()[u"type"].toObject();
    for (std::size_t i = 0; i < kTypeCount; ++i) {
        const auto type = types[typeId(static_cast<Type>(i))].toObject();
        QFont font;
        font.setFamilies(families(type[u"font"].toString()));
        const double px = type[u"px"].toDouble() * zoom;
        // In points a printer's text would be measured by the screen's dots and drawn by its own.
        if (fontDpi > 0)
            font.setPixelSize(std::max(1, static_cast<int>(std::lround(px))));
        else
            font.setPointSizeF(px * 72.0 / screenDpi());
        font.setWeight(static_cast<QFont::Weight>(type[u"weight"].toInt()));
        font.setItalic(type[u"italic"].toBool());
        font.setHintingPreference(QFont::PreferVerticalHinting);
        font.setKerning(true);
        look.m_fonts[i] = font;
        look.m_lines[i] = type[u"line"].toDouble();
    }
    return look;
}

int Look::pxInt(double at100) const {
    return static_cast<int>(std::lround(px(at100)));
}

QPen Look::pen(Token token, double width, Qt::PenStyle style) const {
    QPen pen(color(token), px(width), style, Qt::FlatCap, Qt::MiterJoin);
    return pen;
}

} // namespace stillroom::ui
