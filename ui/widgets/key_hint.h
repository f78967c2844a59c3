#pragma once

#include <QString>
#include <QWidget>

#include <vector>

class QPainter;

namespace stillroom::ui {

// A row of keys and what they do: [Enter] next line  [Esc] as it was.
class KeyHints : public QWidget {
    Q_OBJECT

  public:
    struct Hint {
        QString key;
        QString words;
    };
    explicit KeyHints(QWidget* parent = nullptr);
    void show(std::vector<Hint> hints);
    QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::vector<Hint> m_hints;
};

// A key as it is drawn in the window: a thin frame, heavier below. Returns its width.
double paintKey(QPainter& painter, QPointF topLeft, const QString& key);
double keyWidth(const QString& key);

} // namespace stillroom::ui
