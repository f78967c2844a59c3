#include "ui/panels/stock/stock_page.h"

#include "core/exchange/shopping_text.h"
#include "ui/delegates/wrapped_delegate.h"
#include "ui/panels/stock/shopping_paper.h"
#include "ui/panels/stock/stock_model.h"
#include "ui/panels/stock/stock_table.h"
#include "ui/panels/stock/stock_words.h"
#include "ui/panels/stock/wish_model.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QFileDialog>
#include <QFontInfo>
#include <QHBoxLayout>
#include <QItemSelectionModel>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSaveFile>
#include <QScrollArea>
#include <QSpinBox>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void setInk(QWidget* widget, Token token) {
    auto palette = widget->palette();
    palette.setColor(QPalette::WindowText, Theme::current().color(token));
    widget->setPalette(palette);
}

QVBoxLayout* columnIn(QWidget* widget) {
    auto* column = new QVBoxLayout(widget);
    column->setContentsMargins(0, 0, 0, 0);
    return column;
}

} // namespace

StockPage::StockPage(StockSession& session, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_stock(new StockModel(session, this)),
      m_drinks(new WishModel(session, this)) {
    setAccessibleName(tr("Within reach and what to buy"));
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    setFocusPolicy(Qt::StrongFocus);
    m_title = new QLabel(tr("Within reach"));
    m_about = new QLabel;
    m_about->setMinimumWidth(1);
    m_head = new QHBoxLayout;
    m_head->addWidget(m_title, 0, Qt::AlignBaseline);
    m_head->addWidget(m_about, 1, Qt::AlignBaseline);
    m_banner = new Banner;
    m_columns = {makeShelf(), makeDrinks(), makeList()};
    auto* inside = new QWidget;
    inside->setBackgroundRole(QPalette::Base);
    m_body = new QHBoxLayout(inside);
    for (QWidget* column : m_columns)
        m_body->addWidget(column, column == m_columns[0] ? 4 : 5);
    m_scroll = new QScrollArea;
    m_scroll->setWidget(inside);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addLayout(m_head);
    all->addWidget(m_banner);
    all->addWidget(m_scroll, 1);
    m_banner->hide();
    const std::vector<QWidget*> order{m_filter, m_shelf, m_wishes, m_brings, m_useShelf, m_margin, m_paper};
    for (std::size_t i = 1; i < order.size(); ++i)
        setTabOrder(order[i - 1], order[i]);
    setFocusProxy(m_shelf);

    connect(&session, &StockSession::stockChanged, this, &StockPage::fill);
    connect(&session, &StockSession::wishesChanged, this, &StockPage::fillList);
    // What was refused is said until something is taken.
    connect(&session, &StockSession::stockChanged, this, [this] { tell({}); });
    connect(&session, &StockSession::wishesChanged, this, [this] { tell({}); });
    connect(m_stock, &StockModel::refused, this, &StockPage::tell);
    connect(m_stock, &StockModel::said, this, &StockPage::said);
    connect(m_drinks, &WishModel::refused, this, &StockPage::tell);
    // What a narrow column cuts short is said whole where the keyboard stands.
    connect(m_wishes->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& now) {
                if (m_wishes->hasFocus()) Q_EMIT said(now.data(Qt::AccessibleTextRole).toString());
            });
    connect(m_shelf->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& now) {
                if (m_shelf->hasFocus()) Q_EMIT said(now.data(Qt::AccessibleTextRole).toString());
            });
    connect(m_banner, &Banner::actTriggered, this, [this] { tell({}); });
    dress();
    fill();
    m_shelf->goTo(0);
    m_wishes->goTo(0);
}

QLabel* StockPage::caption(const QString& text, QWidget* buddy) {
    auto* label = new QLabel(text);
    label->setBuddy(buddy);
    label->setWordWrap(true);
    m_captions.push_back(label);
    return label;
}

QWidget* StockPage::makeShelf() {
    auto* widget = new QWidget;
    m_filter = new QLineEdit;
    m_filter->setAccessibleName(tr("Find on the shelf"));
    m_filter->setPlaceholderText(tr("part of a name; also finds what no drink names yet"));
    m_filter->setClearButtonEnabled(true);
    m_shelf = new StockTable(StockModel::Amount);
    m_shelf->setAccessibleName(tr("On the shelf"));
    m_shelf->setModel(m_stock);
    auto* column = columnIn(widget);
    column->addWidget(caption(tr("On the shelf: &find"), m_filter));
    column->addWidget(m_filter);
    column->addWidget(m_shelf, 1);
    column->addWidget(caption(tr("H have · L low · O out · N not said · X off, on · a number counts it · "
                                 "Ctrl Z takes it back"),
                              m_shelf));
    connect(m_filter, &QLineEdit::textChanged, m_stock, &StockModel::setFilter);
    connect(m_filter, &QLineEdit::textChanged, this, [this] { m_shelf->goTo(0); });
    connect(m_filter, &QLineEdit::returnPressed, this, [this] { m_shelf->setFocus(Qt::TabFocusReason); });
    connect(m_shelf, &StockTable::lettered, this, &StockPage::act);
    return widget;
}

QWidget* StockPage::makeDrinks() {
    auto* widget = new QWidget;
    m_wishes = new StockTable(WishModel::Serves);
    m_wishes->setAccessibleName(tr("Drinks, nearest first"));
    m_wishes->setModel(m_drinks);
    m_brings = new QListWidget;
    m_brings->setAccessibleName(tr("What a purchase brings, and what is off"));
    m_brings->setFrameShape(QFrame::NoFrame);
    m_brings->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_brings->setItemDelegate(new WrappedDelegate(0, m_brings));
    m_brings->setResizeMode(QListView::Adjust);
    auto* column = columnIn(widget);
    column->addWidget(caption(tr("Dri&nks: write how many serves are wanted"), m_wishes));
    column->addWidget(m_wishes, 3);
    column->addWidget(caption(tr("What one p&urchase brings, and what fell with what is off"), m_brings));
    column->addWidget(m_brings, 2);
    connect(m_brings, &QListWidget::itemActivated, this, [this](const QListWidgetItem* item) {
        const auto id = item->data(Qt::UserRole).value<QString>();
        for (int row = 0; row < m_stock->rowCount(); ++row)
            if (fromCore(m_stock->ingredient(row).text()) == id) {
                m_shelf->goTo(row);
                m_shelf->setFocus(Qt::TabFocusReason);
                return;
            }
    });
    return widget;
}

QWidget* StockPage::makeList() {
    auto* widget = new QWidget;
    m_useShelf = new QCheckBox(tr("less the &shelf"));
    m_useShelf->setAccessibleName(tr("Less what stands on the shelf"));
    m_useShelf->setChecked(m_session.options().useShelf);
    m_margin = new QSpinBox;
    m_margin->setRange(0, 200);
    m_margin->setSuffix(QString(QChar(0x202F)) + u'%');
    m_margin->setAccessibleName(tr("More fruit than its usual yield asks for, in per cent"));
    m_margin->setValue(static_cast<int>(m_session.options().fruitMargin * 100 + 0.5));
    m_paper = new QTextBrowser;
    m_paper->setAccessibleName(tr("What to buy"));
    m_paper->setFrameShape(QFrame::NoFrame);
    auto* options = new QHBoxLayout;
    auto* margin = caption(tr("fruit &margin"), m_margin);
    margin->setWordWrap(false);
    options->addWidget(m_useShelf, 1);
    options->addWidget(margin);
    options->addWidget(m_margin);
    auto* acts = new QHBoxLayout;
    const auto act = [&](const QString& text, auto slot) {
        auto* button = new QPushButton(text);
        button->setAutoDefault(false);
        connect(button, &QPushButton::clicked, this, slot);
        acts->addWidget(button);
        m_acts.push_back(button);
    };
    act(tr("&Copy"), [this] { copyList(); });
    act(tr("Save &as text…"), [this] { saveByDialog(); });
    act(tr("&Print…"), [this] { Q_EMIT printAsked(); });
    acts->addStretch(1);
    auto* column = columnIn(widget);
    column->addWidget(caption(tr("To bu&y"), m_paper));
    column->addLayout(options);
    column->addWidget(m_paper, 1);
    column->addLayout(acts);
    const auto options_ = [this] {
        auto chosen = m_session.options();
        chosen.useShelf = m_useShelf->isChecked();
        chosen.fruitMargin = m_margin->value() / 100.0;
        m_session.setOptions(chosen);
    };
    connect(m_useShelf, &QCheckBox::toggled, this, options_);
    connect(m_margin, &QSpinBox::valueChanged, this, options_);
    return widget;
}

QString StockPage::about() const {
    return boardWords(m_session.board());
}

void StockPage::fill() {
    const auto& board = m_session.board();
    m_brings->clear();
    const auto add = [&](const QString& words, base::IngredientId id) {
        const auto* poured = board.larder.poured(id);
        auto* item = new QListWidgetItem(words, m_brings);
        item->setData(Qt::UserRole, fromCore((poured != nullptr ? poured->id : id).text()));
        item->setData(WrappedTypeRole, static_cast<int>(Type::Line));
    };
    for (const auto& purchase : board.purchases)
        add(purchaseWords(board, purchase), purchase.ingredient);
    for (const auto& fallen : board.fallen)
        add(fallenWords(board, fallen), fallen.off);
    for (const auto& circle : board.circles)
        add(tr("Made of itself: %1").arg(fromCore(preparation::namesOf(circle, board.larder))),
            circle.path.front());
    if (m_brings->count() == 0) {
        auto* item = new QListWidgetItem(board.drinks.empty()
                                             ? tr("Write a drink first; then it stands here what it lacks.")
                                             : tr("Nothing is missing that one purchase would bring."),
                                         m_brings);
        item->setData(WrappedTypeRole, static_cast<int>(Type::Reason));
        item->setData(WrappedInkRole, static_cast<int>(Token::Ink2));
    }
    place();
    fillList();
}

void StockPage::fillList() {
    const auto& look = Theme::current().look();
    const bool wanted = m_session.wishesAnything();
    for (QPushButton* button : m_acts)
        button->setEnabled(wanted);
    if (!wanted) {
        const QFont& font = look.font(Type::Reason);
        m_paper->setHtml(
            u"<p style=\"font-family:'%1';font-size:%2px;font-style:italic;color:%3\">%4</p>"_s.arg(
                font.family(), QString::number(QFontInfo(font).pixelSize()), look.color(Token::Ink2).name(),
                tr("Write how many serves of a drink are wanted, and what to buy for them stands here.")));
        return;
    }
    m_paper->setHtml(shoppingHtml(m_session.list(), m_session.board().larder, look));
}

QString StockPage::listAsText() const {
    return fromCore(exchange::shoppingText(m_session.list(), m_session.board().larder));
}

void StockPage::copyList() const {
    QApplication::clipboard()->setText(listAsText());
}

bool StockPage::saveList(const QString& path) {
    QSaveFile file(path);
    const QByteArray text = listAsText().toUtf8();
    if (file.open(QIODevice::WriteOnly) && file.write(text) == text.size() && file.commit()) {
        tell({});
        Q_EMIT said(tr("The list is saved: %1").arg(path));
        return true;
    }
    tell(tr("The list could not be written to %1. What stood there is as it was.").arg(path));
    return false;
}

void StockPage::saveByDialog() {
    const QString path =
        QFileDialog::getSaveFileName(this, tr("Save the list"), u"to-buy.txt"_s, tr("Text (*.txt)"));
    if (!path.isEmpty()) saveList(path);
}

void StockPage::tell(const QString& refusal) {
    m_banner->show(BannerKind::Error,
                   refusal.isEmpty() ? BannerText{}
                                     : BannerText{refusal, tr("Nothing was changed."), tr("Close this")});
}

void StockPage::act(QChar letter) {
    const int row = m_shelf->currentRow();
    const auto id = m_stock->ingredient(row);
    if (!m_session.isWritable()) {
        tell(tr("The book is open to read only."));
        return;
    }
    tell({});
    if (letter == u'h') m_stock->setState(row, larder::OnShelf::Have);
    if (letter == u'l') m_stock->setState(row, larder::OnShelf::Low);
    if (letter == u'o') m_stock->setState(row, larder::OnShelf::Out);
    if (letter == u'n') m_stock->setState(row, larder::OnShelf::NotSaid);
    if (letter == u'x')
        if (const auto* known = m_session.board().larder.find(id)) m_stock->setOff(row, !known->stock.off);
    if (const int stands = m_stock->rowOf(id); stands != m_shelf->currentRow()) m_shelf->goTo(stands);
}

void StockPage::step(bool back) {
    auto& stack = m_session.undoStack();
    const QString name = back ? stack.undoText() : stack.redoText();
    if (back ? !stack.canUndo() : !stack.canRedo()) {
        Q_EMIT said(back ? tr("Nothing to take back here.") : tr("Nothing to do again here."));
        return;
    }
    back ? stack.undo() : stack.redo();
    Q_EMIT said(back ? tr("Taken back: %1").arg(name) : tr("Done again: %1").arg(name));
}

bool StockPage::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = dynamic_cast<QKeyEvent*>(event);
        if (key && (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo))) {
            event->accept();
            return true;
        }
    }
    return QWidget::event(event);
}

void StockPage::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Undo))
        step(true);
    else if (event->matches(QKeySequence::Redo))
        step(false);
    else if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void StockPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (m_scroll != nullptr) place();
}

void StockPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (m_scroll == nullptr) return;
    if (event->type() == QEvent::FontChange || event->type() == QEvent::PaletteChange) {
        dress();
        fill();
    }
}

// Below this the columns stand under each other.
void StockPage::place() {
    const auto& theme = Theme::current();
    const bool narrow = width() < theme.px(900);
    m_head->setSpacing(theme.pxInt(14));
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(8));
    m_body->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    m_body->setSpacing(theme.pxInt(narrow ? 20 : 28));
    m_body->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(12));
    for (QWidget* column : m_columns) {
        column->setMinimumWidth(theme.pxInt(60));
        column->setMinimumHeight(narrow ? theme.pxInt(380) : 0);
        column->layout()->setSpacing(theme.pxInt(6));
        column->layout()->activate();
    }
    m_body->activate();
    m_title->setText(tr("Within reach"));
    m_about->setToolTip(about());
    m_about->setAccessibleName(about());
    m_about->setText(elided(about(), Type::Control, theme.look(),
                            width() - theme.px(60) - textWidth(m_title->text(), Type::Title, theme.look())));
    m_shelf->setWidths({58, 62});
    m_wishes->setWidths({0.54, 50});
}

void StockPage::dress() {
    const auto& theme = Theme::current();
    m_title->setFont(theme.font(Type::Title));
    m_about->setFont(theme.font(Type::Control));
    setInk(m_title, Token::Ink);
    setInk(m_about, Token::Ink2);
    for (QLabel* label : m_captions) {
        label->setFont(theme.font(Type::Caption));
        setInk(label, Token::Ink2);
    }
    m_filter->setFont(theme.font(Type::Control));
    place();
}

} // namespace stillroom::ui
