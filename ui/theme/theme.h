#pragma once

#include "ui/theme/look.h"

#include <QObject>
#include <QPalette>

namespace stillroom::ui {

// The look the program wears now. One for the application; everything that paints asks it, and repaints
// when it says it changed.
class Theme : public QObject {
    Q_OBJECT

  public:
    enum class Choice : unsigned char { FollowSystem, Light, Dark };
    static constexpr int kLeastZoom = 100; // per cent
    static constexpr int kMostZoom = 200;

    static Theme& current();

    // Puts style, palette and fonts on the application. Call once, after QApplication is made.
    void install();

    const Look& look() const { return m_look; }
    Mode mode() const { return m_look.mode(); }
    Choice choice() const { return m_choice; }
    int zoomPercent() const { return m_zoomPercent; }
    void setChoice(Choice choice);
    void setZoomPercent(int percent); // held within kLeastZoom…kMostZoom

    const QColor& color(Token token) const { return m_look.color(token); }
    const QFont& font(Type type) const { return m_look.font(type); }
    double px(double at100) const { return m_look.px(at100); }
    int pxInt(double at100) const { return m_look.pxInt(at100); }

    static QPalette paletteOf(const Look& look);
    static bool isDark(const QPalette& palette);

    bool eventFilter(QObject* watched, QEvent* event) override;

  Q_SIGNALS:
    void changed();

  private:
    Theme();
    void apply();
    void readSystem();

    Look m_look;
    Choice m_choice = Choice::FollowSystem;
    int m_zoomPercent = 100;
    bool m_systemDark = false;
    bool m_installed = false;
    bool m_applying = false;
};

} // namespace stillroom::ui
