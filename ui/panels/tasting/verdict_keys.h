#pragma once

#include "core/tasting/tasting.h"

#include <QWidget>

namespace stillroom::ui {

// Keep, change or drop: three keys, each with its proof mark. K, C and D set and go on; arrows choose.
class VerdictKeys : public QWidget {
    Q_OBJECT

  public:
    explicit VerdictKeys(QWidget* parent = nullptr);

    tasting::Verdict verdict() const { return m_verdict; }
    void setVerdict(tasting::Verdict verdict);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return sizeHint(); }

  Q_SIGNALS:
    void changed();
    void leaveForward();
    void leaveBackward();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    QRectF keyBox(int index) const;

    tasting::Verdict m_verdict = tasting::Verdict::None;
};

} // namespace stillroom::ui
