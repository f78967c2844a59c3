#pragma once

#include <QWidget>

#include <vector>

class QLabel;
class QLineEdit;
class QPushButton;

namespace stillroom::ui {

// The empty bench: one field to write into, and the doors to begin by.
class FirstRunPage : public QWidget {
    Q_OBJECT

  public:
    explicit FirstRunPage(QWidget* parent = nullptr);

    QLineEdit& line() { return *m_line; }
    void setSampleOffered(bool offered);
    void setProblem(const QString& text);

  Q_SIGNALS:
    void lineWritten(const QString& text);
    void sampleAsked();
    void pasteAsked();
    void preparationAsked();
    void openAsked();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    QPushButton* addDoor(const QString& icon, const QString& title, const QString& words,
                         const QKeySequence& key);
    void dress();

    QWidget* m_left;
    QLabel* m_title;
    QLabel* m_invite;
    QLabel* m_problem;
    QLabel* m_begin;
    QLabel* m_safe;
    QLineEdit* m_line;
    std::vector<QPushButton*> m_doors;
};

} // namespace stillroom::ui
