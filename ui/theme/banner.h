#pragma once

#include "ui/theme/look.h"

#include <QWidget>

class QPainter;

namespace stillroom::ui {

// A strip that says a thing where the thing is: bold fact, consequence, then the act. Gap: a fact is
// missing. Caution: somebody could be hurt or misled. Error: what happened, what was kept, what to do.
enum class BannerKind : unsigned char { Gap, Caution, Error };

struct BannerText {
    QString fact;
    QString consequence;
    QString act; // a link's words; empty: nothing to do here
};

double bannerHeight(double width, BannerKind kind, const BannerText& text, const Look& look);
// Returns where the act was written, for pointing at it; empty without an act.
QRectF paintBanner(QPainter& painter, const QRectF& box, BannerKind kind, const BannerText& text,
                   const Look& look);

class Banner : public QWidget {
    Q_OBJECT

  public:
    explicit Banner(QWidget* parent = nullptr);

    void show(BannerKind kind, const BannerText& text); // an empty fact hides it
    BannerKind kind() const { return m_kind; }
    const BannerText& text() const { return m_text; }

    QSize sizeHint() const override;

  Q_SIGNALS:
    void actTriggered();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;

  private:
    void fitHeight();

    BannerKind m_kind = BannerKind::Gap;
    BannerText m_text;
    QRectF m_actBox;
};

} // namespace stillroom::ui
