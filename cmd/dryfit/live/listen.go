package live

import (
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/netip"
	"strconv"
	"strings"
	"sync"
)

// usualPort is tried first where nobody names one, so that a page left open finds its server
// again; any free one does.
const usualPort = "8917"

// listenForms says what an address can be.
const listenForms = "it can be an address of this machine in numbers (127.0.0.1 for this machine alone, 0.0.0.0 for the whole network), or one with a port such as 0.0.0.0:8080"

// Listen listens at an address "host" or "host:port"; "" is loopback.
func Listen(address string) (net.Listener, error) {
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		host, port = strings.TrimSuffix(strings.TrimPrefix(address, "["), "]"), ""
	}
	if host == "" && port == "" {
		host = "127.0.0.1"
	}
	if _, err := netip.ParseAddr(host); host != "" && host != "localhost" && err != nil {
		return nil, fmt.Errorf("--listen is %q; %s", address, listenForms) // a name would be asked for on the network
	}
	if port != "" {
		if n, err := strconv.Atoi(port); err != nil || n < 0 || n > 65535 {
			return nil, fmt.Errorf("--listen is %q; %s", address, listenForms)
		}
		l, err := net.Listen("tcp", net.JoinHostPort(host, port))
		if err != nil {
			return nil, fmt.Errorf("--listen %s: %w", address, plain(err))
		}
		return l, nil
	}
	l, err := net.Listen("tcp", net.JoinHostPort(host, usualPort))
	if err != nil {
		l, err = net.Listen("tcp", net.JoinHostPort(host, "0"))
	}
	if err != nil {
		return nil, fmt.Errorf("--listen %s: %w", address, plain(err))
	}
	return l, nil
}

// plain is the cause of a network error, without the words around it.
func plain(err error) error {
	var op *net.OpError
	if errors.As(err, &op) {
		return op.Err
	}
	return err
}

// limited accepts so many connections at a time; more wait.
func limited(l net.Listener, most int) net.Listener {
	return &limitedListener{Listener: l, room: make(chan struct{}, most), closed: make(chan struct{})}
}

type limitedListener struct {
	net.Listener
	room   chan struct{}
	closed chan struct{}
	once   sync.Once
}

// Accept waits for room and then for a connection.
func (l *limitedListener) Accept() (net.Conn, error) {
	select {
	case l.room <- struct{}{}:
	case <-l.closed:
		return nil, net.ErrClosed
	}
	c, err := l.Listener.Accept()
	if err != nil {
		<-l.room
		return nil, err
	}
	return &limitedConn{Conn: c, leave: func() { <-l.room }}, nil
}

// Close ends the listener.
func (l *limitedListener) Close() error {
	l.once.Do(func() { close(l.closed) })
	return l.Listener.Close()
}

type limitedConn struct {
	net.Conn
	once  sync.Once
	leave func()
}

// Close makes room for another.
func (c *limitedConn) Close() error {
	err := c.Conn.Close()
	c.once.Do(c.leave)
	return err
}

// silent is where a web server's own remarks on broken connections go.
func silent() *log.Logger { return log.New(io.Discard, "", 0) }
