#pragma once

#include <QStringList>
#include <QWidget>

namespace stillroom::ui {

// A drawing on screen. It can be reached by keyboard, says its name and in words what it shows, and gives
// the same facts as rows: for a screen reader, for Ctrl C, for a table beside it.
class PlotWidget : public QWidget {
    Q_OBJECT

  public:
    explicit PlotWidget(const QString& name, QWidget* parent = nullptr);

    virtual QString words() const = 0;           // what the drawing shows, in sentences
    virtual QList<QStringList> rows() const = 0; // first row: headings
    QString tableText() const;                   // rows, tab-separated

  protected:
    virtual void paint(QPainter& painter) = 0;
    // Whether the drawing shows the focus inside itself; else a frame stands around all of it.
    virtual bool framesItself() const { return false; }
    // Call after the values changed: tells assistive tools and repaints.
    void valuesChanged();

    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
};

// A drawing of one kind of finished values, which it only keeps and paints.
template <class Values>
class PlotOf : public PlotWidget {
  public:
    using PlotWidget::PlotWidget;

    void setValues(const Values& values) {
        m_values = values;
        valuesChanged();
    }
    const Values& values() const { return m_values; }

  protected:
    Values m_values;
};

QString joinedRows(const QList<QStringList>& rows);

} // namespace stillroom::ui
