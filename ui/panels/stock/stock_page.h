#pragma once

#include "ui/panels/stock/stock_session.h"

#include <QWidget>

class QBoxLayout;
class QCheckBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QScrollArea;
class QSpinBox;
class QTextBrowser;

namespace stillroom::ui {

class Banner;
class StockModel;
class StockTable;
class WishModel;

// What is within reach and what to buy: the shelf, counted by keyboard; the drinks, nearest first, with how
// many serves are wanted; the list for them.
class StockPage : public QWidget {
    Q_OBJECT

  public:
    explicit StockPage(StockSession& session, QWidget* parent = nullptr);

    StockTable& shelf() { return *m_shelf; }
    StockTable& wishes() { return *m_wishes; }
    QListWidget& brings() { return *m_brings; }
    QTextBrowser& paper() { return *m_paper; }
    QLineEdit& filter() { return *m_filter; }
    const Banner& banner() const { return *m_banner; }
    QString about() const;

    QString listAsText() const;
    void copyList() const;
    bool saveList(const QString& path);

  Q_SIGNALS:
    void closed();
    void said(const QString& what);
    void printAsked();

  protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    QWidget* makeShelf();
    QWidget* makeDrinks();
    QWidget* makeList();
    QLabel* caption(const QString& text, QWidget* buddy);
    void act(QChar letter);
    void step(bool back);
    void tell(const QString& refusal);
    void fill();
    void fillList();
    void dress();
    void place();
    void saveByDialog();

    StockSession& m_session;
    StockModel* m_stock;
    WishModel* m_drinks;
    QLabel* m_title;
    QLabel* m_about;
    Banner* m_banner;
    QLineEdit* m_filter;
    StockTable* m_shelf;
    StockTable* m_wishes;
    QListWidget* m_brings;
    QCheckBox* m_useShelf;
    QSpinBox* m_margin;
    QTextBrowser* m_paper;
    std::vector<QPushButton*> m_acts;
    std::vector<QLabel*> m_captions;
    QBoxLayout* m_head;
    QBoxLayout* m_body;
    QScrollArea* m_scroll = nullptr; // last to be made: without it nothing is laid out
    std::vector<QWidget*> m_columns;
};

} // namespace stillroom::ui
