#include "ui/theme/theme.h"

#include "ui/theme/icons.h"
#include "ui/theme/style.h"

#include <QApplication>
#include <QEvent>
#include <QPixmapCache>
#include <QScreen>
#include <QToolTip>
#include <QWidget>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

namespace {

// What a desktop that was never adjusted uses: 10 pt at 96 dpi. A larger system font means larger type
// here too; a smaller one does not go below the sizes the look was drawn for.
constexpr double kUsualSystemFontPx = 10.0 * 96.0 / 72.0;

int zoomOfSystemFont() {
    const auto* screen = QGuiApplication::primaryScreen();
    const double dpi = screen ? screen->logicalDotsPerInchY() : 96.0;
    const auto font = QGuiApplication::font();
    const double px = font.pixelSize() > 0 ? font.pixelSize() : font.pointSizeF() * dpi / 72.0;
    const int percent = static_cast<int>(std::lround(px / kUsualSystemFontPx * 20.0)) * 5;
    return std::clamp(percent, Theme::kLeastZoom, Theme::kMostZoom);
}

} // namespace

Theme& Theme::current() {
    static Theme theme;
    return theme;
}

Theme::Theme() : m_look(Look::of(Mode::Light)) {}

bool Theme::isDark(const QPalette& palette) {
    return palette.color(QPalette::Window).lightness() < palette.color(QPalette::WindowText).lightness();
}

void Theme::install() {
    if (m_installed) return;
    m_installed = true;
    m_systemDark = isDark(QGuiApplication::palette());
    m_zoomPercent = zoomOfSystemFont();
    QApplication::setStyle(new Style);
    qApp->installEventFilter(this);
    apply();
}

void Theme::setChoice(Choice choice) {
    if (choice == m_choice) return;
    m_choice = choice;
    apply();
}

void Theme::setZoomPercent(int percent) {
    percent = std::clamp(percent, kLeastZoom, kMostZoom);
    if (percent == m_zoomPercent) return;
    m_zoomPercent = percent;
    apply();
}

void Theme::apply() {
    const bool dark = m_choice == Choice::Dark || (m_choice == Choice::FollowSystem && m_systemDark);
    m_look = Look::of(dark ? Mode::Dark : Mode::Light, m_zoomPercent / 100.0);
    clearIconCache();
    if (m_installed) {
        m_applying = true;
        const auto palette = paletteOf(m_look);
        QApplication::setPalette(palette);
        QApplication::setFont(m_look.font(Type::Control));
        QToolTip::setPalette(palette);
        QToolTip::setFont(m_look.font(Type::Control));
        // Sizes come from the style's metrics, which follow the zoom: every widget measures itself anew.
        for (auto* widget : QApplication::allWidgets()) {
            QEvent styleChange(QEvent::StyleChange);
            QApplication::sendEvent(widget, &styleChange);
            widget->updateGeometry();
            widget->update();
        }
        m_applying = false;
    }
    Q_EMIT changed();
}

// The desktop's own palette shows once ours is taken off; what it is decides light or dark.
void Theme::readSystem() {
    m_applying = true;
    QApplication::setPalette(QPalette());
    m_systemDark = isDark(QGuiApplication::palette());
    m_applying = false;
    apply();
}

bool Theme::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::ThemeChange && !m_applying && watched->isWindowType()) readSystem();
    return QObject::eventFilter(watched, event);
}

QPalette Theme::paletteOf(const Look& look) {
    QPalette palette;
    const auto set = [&](QPalette::ColorRole role, Token token) {
        palette.setColor(role, look.color(token));
    };
    set(QPalette::Window, Token::Surface);
    set(QPalette::WindowText, Token::Ink);
    set(QPalette::Base, Token::Page);
    set(QPalette::AlternateBase, Token::Well);
    set(QPalette::Text, Token::Ink);
    set(QPalette::PlaceholderText, Token::Ink3);
    set(QPalette::Button, Token::Page);
    set(QPalette::ButtonText, Token::Ink);
    set(QPalette::BrightText, Token::OnIntent);
    set(QPalette::Highlight, Token::Selection);
    set(QPalette::HighlightedText, Token::Ink);
    set(QPalette::ToolTipBase, Token::Page);
    set(QPalette::ToolTipText, Token::Ink);
    set(QPalette::Link, Token::Intent);
    set(QPalette::LinkVisited, Token::Intent);
    set(QPalette::Light, Token::Page);
    set(QPalette::Midlight, Token::Well);
    set(QPalette::Mid, Token::Rule);
    set(QPalette::Dark, Token::RuleStrong);
    set(QPalette::Shadow, Token::RuleStrong);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        palette.setColor(QPalette::Disabled, role, look.color(Token::Ink3));
    return palette;
}

} // namespace stillroom::ui
