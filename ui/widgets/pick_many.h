#pragma once

#include <QPushButton>
#include <QString>
#include <QStringList>

#include <vector>

class QMenu;

namespace stillroom::ui {

// Any number of a few words: a button that says which, over a list that stays open while one ticks. Space or
// the arrow down opens it, Space ticks, Enter or Esc closes it.
class PickMany : public QPushButton {
    Q_OBJECT

  public:
    struct Choice {
        QString id;
        QString words;
    };
    // `none`: what the button says with nothing ticked ("any").
    PickMany(const QString& name, const QString& none, QWidget* parent = nullptr);

    void setChoices(const std::vector<Choice>& choices);
    QStringList chosen() const; // ids, in the order of the list
    void setChosen(const QStringList& ids);
    QMenu& list() { return *m_menu; }
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void changed();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void open();
    void say();
    QString m_none;
    QString m_said;
    QMenu* m_menu;
};

} // namespace stillroom::ui
